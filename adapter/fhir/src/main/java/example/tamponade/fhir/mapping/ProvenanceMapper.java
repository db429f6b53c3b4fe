package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.CaseFact;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactInput;
import example.tamponade.core.casefile.RecordIssue;
import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.EventType;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Provenance;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.StringType;
import org.hl7.fhir.r4.model.UuidType;

/** Who recorded an event, when and from what; and which software worked out what from it. */
final class ProvenanceMapper {

    private static final String PARTICIPANT = "http://terminology.hl7.org/CodeSystem/provenance-participant-type";

    private ProvenanceMapper() {}

    /**
     * The provenance of one event, also of one that corrects or retracts another.
     *
     * @param targets what the event brought, changed or withdrew
     * @param sha256 digest of the original payload, hexadecimal
     */
    static Provenance ofEvent(EventEnvelope event, List<Reference> targets, String sha256, CaseScope scope) {
        Provenance provenance = new Provenance();
        provenance.setTarget(targets);
        provenance.setOccurred(Times.dateTime(event.occurredAt()));
        provenance.setRecordedElement(Times.instant(event.recordedAt()));
        CodeableConcept activity = scope.terms.local("event-type", type(event));
        provenance.setActivity(activity);
        provenance.addAgent().setType(participant("author", "Author")).setWho(scope.recorder(event));
        provenance.addEntity().setRole(Provenance.ProvenanceEntityRole.SOURCE).setWhat(recordedAs(event.eventId()));
        extensions(provenance, event, sha256, scope);
        String who = scope.terms
                        .local("staff-role", event.recordedBy().role().code())
                        .getText() + " " + event.recordedBy().id();
        String line = activity.getText() + ", " + Times.words(event.occurredAt()) + "; recorded "
                + Times.words(event.recordedAt()) + " by " + who + " at " + event.facilityId() + ".";
        String id = scope.ids.of(event.eventId(), "event-provenance");
        scope.frame.on(provenance, id, "event-provenance", lines(line, event));
        scope.frame.source(provenance, event.eventId());
        return provenance;
    }

    /** An event itself, which is no resource. */
    static Reference recordedAs(UUID event) {
        return new Reference()
                .setIdentifier(new Identifier().setSystem("urn:ietf:rfc:3986").setValue("urn:uuid:" + event));
    }

    private static void extensions(Provenance provenance, EventEnvelope event, String sha256, CaseScope scope) {
        Frame frame = scope.frame;
        provenance.addExtension(frame.extension("payload-digest", new StringType("sha-256:" + sha256)));
        if (event.source() != null) {
            CodeableConcept source =
                    scope.terms.local("event-source", event.source().code());
            provenance.addExtension(frame.extension("event-source", source));
        }
        if (event.corrects() != null) {
            provenance.addExtension(frame.extension("corrects", new UuidType("urn:uuid:" + event.corrects())));
        }
        if (event.retracts() != null) {
            provenance.addExtension(frame.extension("retracts", new UuidType("urn:uuid:" + event.retracts())));
        }
    }

    private static List<String> lines(String line, EventEnvelope event) {
        if (event.corrects() != null) {
            return List.of(line, "Corrects event " + event.corrects() + ".");
        }
        return event.retracts() == null ? List.of(line) : List.of(line, "Retracts event " + event.retracts() + ".");
    }

    static String type(EventEnvelope event) {
        BedsideEvent data = event.data();
        return data == null ? "retraction" : EventType.of(data).code();
    }

    /** The provenance of what was derived at one event; empty when nothing was. */
    static List<Resource> ofDerivation(CaseEntry entry, CaseScope scope) {
        List<CaseFact> facts = entry.facts();
        if (facts.isEmpty()) {
            return List.of();
        }
        Provenance provenance = new Provenance();
        distinct(facts.stream().map(it -> FactMappers.reference(it.key(), scope)))
                .forEach(provenance::addTarget);
        provenance.setOccurred(Times.dateTime(entry.event().occurredAt()));
        provenance.setRecordedElement(Times.instant(entry.event().recordedAt()));
        provenance.addAgent().setType(participant("assembler", "Assembler")).setWho(scope.software());
        distinct(facts.stream().flatMap(it -> FactMappers.references(inputs(it), scope).stream()))
                .forEach(it -> provenance
                        .addEntity()
                        .setRole(Provenance.ProvenanceEntityRole.SOURCE)
                        .setWhat(it));
        String protocol = scope.file.protocol().reference();
        provenance.addExtension(scope.frame.extension("care-protocol", new StringType(protocol)));
        String line = "Worked out by the adapter, version " + scope.softwareVersion() + ", with care protocol "
                + protocol + ", from what was recorded "
                + Times.words(entry.event().recordedAt()) + ".";
        String id = scope.ids.of(entry.root(), "derivation-provenance");
        scope.frame.on(provenance, id, "derivation-provenance", List.of(line, CaseMapper.CAUTION));
        scope.frame.source(provenance, entry.event().eventId());
        return List.of(provenance);
    }

    private static List<FactInput> inputs(CaseFact fact) {
        if (fact instanceof DerivedValue value) {
            return value.inputs();
        }
        return fact instanceof example.tamponade.core.casefile.Flag flag
                ? flag.evidence()
                : ((RecordIssue) fact).implicated();
    }

    private static Collection<Reference> distinct(Stream<Reference> references) {
        Map<String, Reference> each = new LinkedHashMap<>();
        references.forEach(it -> each.putIfAbsent(it.getReference(), it));
        return each.values();
    }

    private static CodeableConcept participant(String code, String display) {
        return new CodeableConcept(new Coding(PARTICIPANT, code, display));
    }
}
