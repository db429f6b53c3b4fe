package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.Reading;
import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.Coded;
import example.tamponade.core.event.EventEnvelope;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Communication;
import org.hl7.fhir.r4.model.DomainResource;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Procedure;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.StringType;
import org.hl7.fhir.r4.model.Type;
import org.jspecify.annotations.Nullable;

/** One event being mapped: what it holds, how it stands, and what its resources have alike. */
final class Recorded {

    private static final String PARTICIPATION = "http://terminology.hl7.org/CodeSystem/v3-ParticipationType";
    private static final String PERFORMER_FUNCTION = "http://hl7.org/fhir/StructureDefinition/event-performerFunction";

    final CaseScope scope;
    final UUID root;
    final EventEnvelope event;
    final @Nullable UUID tamponade;
    final @Nullable UUID recognition;
    final Standing standing;
    private final Marks marks;

    Recorded(
            CaseScope scope,
            UUID root,
            EventEnvelope event,
            @Nullable UUID tamponade,
            @Nullable UUID recognition,
            Standing standing,
            Marks marks) {
        this.scope = scope;
        this.root = root;
        this.event = event;
        this.tamponade = tamponade;
        this.recognition = recognition;
        this.standing = standing;
        this.marks = marks;
    }

    BedsideEvent data() {
        return Objects.requireNonNull(event.data());
    }

    OffsetDateTime at() {
        return event.occurredAt();
    }

    CodeableConcept item(String code) {
        return scope.item(code);
    }

    /** An answer of one of our lists. */
    CodeableConcept answer(String list, Coded answer) {
        return scope.terms.local(list, answer.code());
    }

    /** The stay during which it was recorded. */
    Reference encounter() {
        return scope.encounter(event);
    }

    /** Another resource of the same event. */
    Reference own(String type, String role) {
        return scope.reference(type, scope.ids.of(root, role));
    }

    /** The tamponade the event belongs to; null when no device was in place. */
    @Nullable
    Reference tamponade() {
        return tamponade == null
                ? null
                : scope.reference("Procedure", scope.ids.of(tamponade, Reading.TAMPONADE.code()));
    }

    /** The device the event belongs to; null when none was in place. */
    @Nullable
    Reference device() {
        return tamponade == null ? null : scope.reference("Device", scope.ids.of(tamponade, TamponadeMapper.DEVICE));
    }

    /** An observation of the mother, made by the recorder when the event happened. */
    Observation observation(Kind kind, CodeableConcept code) {
        Observation observation = observationOf(scope.mother(), kind, code);
        observation.setEncounter(encounter().setIdentifier(EpisodeMapper.caseIdentifier(scope)));
        return observation;
    }

    /** An observation of somebody or something, made by the recorder when the event happened. */
    Observation observationOf(Reference subject, Kind kind, CodeableConcept code) {
        Observation observation = new Observation();
        observation.setStatus(Observation.ObservationStatus.FINAL);
        observation.setCategory(kind.categories(scope.terms.local("observation-group", "bedside")));
        observation.setCode(code);
        observation.setSubject(subject);
        observation.setEffective(Times.dateTime(at()));
        observation.setIssuedElement(Times.instant(event.recordedAt()));
        return observation.addPerformer(performer());
    }

    // With the numbers and the role that it leads to, an observation can be read without the resources around it.
    private Reference performer() {
        Reference performer = scope.recorder(event).setIdentifier(SurroundingsMapper.staffIdentifier(event, scope));
        performer.getIdentifier().getAssigner().setIdentifier(SurroundingsMapper.facilityIdentifier(event, scope));
        CodeableConcept role = answer("staff-role", event.recordedBy().role());
        role.addCoding(new Coding(PARTICIPATION, "AUT", "author (originator)"));
        performer.addExtension(new Extension(PERFORMER_FUNCTION, role));
        return performer;
    }

    /** Something done to the mother, finished when it was recorded; who did it is not known unless the event says so. */
    Procedure procedure(CodeableConcept code) {
        Procedure procedure = new Procedure();
        procedure.setStatus(Procedure.ProcedureStatus.COMPLETED);
        procedure.setCode(code);
        procedure.setSubject(scope.mother()).setEncounter(encounter());
        procedure.setPerformed(Times.dateTime(at()));
        return procedure.setRecorder(scope.recorder(event));
    }

    Communication communication(CodeableConcept category, String... texts) {
        Communication communication = new Communication();
        communication.setStatus(Communication.CommunicationStatus.COMPLETED);
        communication.addCategory(category);
        communication.setSubject(scope.mother()).setEncounter(encounter());
        communication.setSentElement(Times.dateTime(at()));
        communication.setSender(scope.recorder(event));
        for (String text : texts) {
            communication.addPayload().setContent(new StringType(text));
        }
        return communication;
    }

    Extension extension(String id, Type value) {
        return scope.frame.extension(id, value);
    }

    /**
     * Finishes a resource of this event: id, profile, source, marks, state and narrative.
     *
     * @param role which of the event's resources; part of its id
     * @param line what a clinician would read first
     */
    <T extends DomainResource> T finish(T resource, String role, String profile, String line) {
        T finished = describe(resource, scope.ids.of(root, role), role, profile, line);
        if (standing == Standing.WITHDRAWN) {
            EnteredInError.mark(finished);
        } else if (standing == Standing.CORRECTED && finished instanceof Observation observation) {
            observation.setStatus(Observation.ObservationStatus.CORRECTED);
        }
        return finished;
    }

    /** Finishes a resource of the whole case that this event brought; its state is the case's, not the event's. */
    <T extends DomainResource> T describe(T resource, String id, String role, String profile, String line) {
        List<String> codes = marks.of(role);
        List<String> lines = new ArrayList<>(List.of(line + ".", provenance()));
        if (!standing.words().isEmpty()) {
            lines.add(standing.words());
        }
        if (!codes.isEmpty()) {
            lines.add("Marked: " + codes.stream().map(this::display).collect(Collectors.joining("; ")) + ".");
        }
        T framed = scope.frame.on(resource, id, profile, lines);
        scope.frame.source(framed, event.eventId());
        scope.frame.tag(framed, codes);
        return framed;
    }

    private String provenance() {
        String source = event.source() == null
                ? ""
                : ", " + answer("event-source", event.source()).getText().toLowerCase(Locale.ROOT);
        String who = answer("staff-role", event.recordedBy().role()).getText() + " "
                + event.recordedBy().id();
        return Times.words(at()) + "; recorded " + Times.words(event.recordedAt()) + " by " + who + source + ".";
    }

    private String display(String code) {
        return scope.terms.display(scope.terms.system("data-quality"), code);
    }
}
