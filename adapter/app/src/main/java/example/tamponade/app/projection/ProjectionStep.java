package example.tamponade.app.projection;

import example.tamponade.core.casefile.CaseChange;
import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.CaseFact;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactKey;
import example.tamponade.core.casefile.FactKind;
import example.tamponade.core.casefile.Flag;
import example.tamponade.core.casefile.IssueKind;
import example.tamponade.core.casefile.Withdrawn;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.Referral;
import example.tamponade.fhir.conformance.ResourceText;
import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.mapping.Changes;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** What the events of one step change, and the resources that come of it. */
final class ProjectionStep {

    private static final String OBSERVATION = "Observation";

    // What a fact becomes.
    private static final List<String> TYPES = List.of(OBSERVATION, "Flag", "DetectedIssue");

    private final CaseMapper mapper;
    private final StepVersions versions;
    private final Set<UUID> touched = new LinkedHashSet<>();
    private final Set<UUID> withdrawn = new LinkedHashSet<>();
    private boolean replaced;

    /** Tells changes against these versions. */
    ProjectionStep(CaseMapper mapper, StepVersions versions) {
        this.mapper = mapper;
        this.versions = versions;
    }

    /**
     * One event of the step.
     *
     * @param event the event
     * @param before the case file without it
     * @param change what it changed
     */
    record Folded(EventEnvelope event, CaseFile before, CaseChange change) {}

    /** The versions of everything that these events touched, as it is after the last of them. */
    StepVersions versions(List<Folded> folded, ProjectedCase now) {
        versions.read(folded.stream().flatMap(it -> names(it.change())).toList());
        folded.forEach(it -> add(it, now.isOfFacility()));
        if (folded.stream().anyMatch(it -> changesReferral(it.change()))) {
            touchReferral(now.file());
        }
        mapper.map(now.file(), changes(now), now.digests()).forEach(versions::put);
        addTakenOver(folded);
        addSetAside(now);
        return versions;
    }

    private static boolean changesReferral(CaseChange change) {
        return Stream.concat(
                        change.entries().stream().map(CaseEntry::event),
                        change.withdrawn().stream().map(Withdrawn::event))
                .anyMatch(it -> it.data() instanceof Referral);
    }

    // What each step brought depends on the decision before it.
    private void touchReferral(CaseFile file) {
        file.entries().stream()
                .filter(it -> it.event().data() instanceof Referral)
                .forEach(it -> touched.add(it.root()));
    }

    // Steps of a referral whose decision is not on record are followed under the case; a decision that comes late takes
    // them over.
    private void addTakenOver(List<Folded> folded) {
        folded.stream()
                .filter(it -> it.event().data() instanceof Referral)
                .flatMap(it -> mapper.undecidedReferral(it.before()).stream())
                .reduce((one, later) -> later)
                .filter(it -> !versions.isPut(it))
                .ifPresent(it -> versions.put(mapper.enteredInError(it)));
    }

    /** The versions when an event that was set aside has been put on record after all. */
    StepVersions versionsAfterAll(Folded folded, ProjectedCase now) {
        versions(List.of(folded), now);
        addGone(FactKey.of(IssueKind.EVENT_SET_ASIDE, folded.event().eventId()));
        return versions;
    }

    /** The versions of the warnings that the passing of time brought or took back. */
    StepVersions warnings(CaseChange change) {
        versions.read(names(change).toList());
        change.facts().stream().filter(Flag.class::isInstance).forEach(it -> addFact(change.after(), it));
        change.gone().forEach(this::addGone);
        return versions;
    }

    // A case of which nothing else is known has nobody to tell this of; a later step does.
    private void addSetAside(ProjectedCase now) {
        boolean someoneToTell =
                !now.file().entries().isEmpty() || !now.file().withdrawn().isEmpty();
        if (someoneToTell && !now.isOfFacility()) {
            now.setAside().values().forEach(it -> versions.put(mapper.ofSetAside(now.file(), it.event())));
        }
    }

    // What may be on record of the facts that an event brought or took back.
    private Stream<String> names(CaseChange change) {
        Stream<String> values = change.facts().stream()
                .filter(DerivedValue.class::isInstance)
                .map(it -> OBSERVATION + "/" + mapper.idOf(it.key()));
        Stream<String> gone =
                change.gone().stream().flatMap(key -> TYPES.stream().map(type -> type + "/" + mapper.idOf(key)));
        return Stream.concat(values, gone);
    }

    private void add(Folded folded, boolean ofFacility) {
        CaseChange change = folded.change();
        EventEnvelope event = folded.event();
        addFormerRoot(event, folded.before());
        change.entries().forEach(it -> touched.add(it.root()));
        change.withdrawn().forEach(it -> withdrawn.add(it.root()));
        replaced |= event.corrects() != null || event.retracts() != null || !stands(event, change.after());
        if (ofFacility) {
            change.facts().stream().filter(Changes::tellsOfFacility).forEach(it -> addFact(change.after(), it));
            change.gone().forEach(this::addGone);
        } else {
            addDerived(change);
        }
    }

    private void addDerived(CaseChange change) {
        change.facts().stream()
                .filter(it -> !stillRunning(change.after(), it))
                .forEach(it -> addFact(change.after(), it));
        change.gone().forEach(this::addGone);
        change.entries().forEach(it -> mapper.ofDerivation(change.after(), it).forEach(versions::put));
    }

    // Its correction or retraction may have come before it.
    private static boolean stands(EventEnvelope event, CaseFile file) {
        CaseEntry entry = file.entry(event.eventId());
        return entry != null && entry.event().eventId().equals(event.eventId());
    }

    // A correction may itself have been corrected before it came. What that one brought stood under an id of its own;
    // now
    // it is told of the event that both correct.
    private void addFormerRoot(EventEnvelope event, CaseFile before) {
        CaseEntry early = event.corrects() == null ? null : before.entry(event.eventId());
        if (early != null) {
            mapper.ofFormerRoot(before, early.root(), early.event()).forEach(versions::put);
        }
    }

    private Changes changes(ProjectedCase now) {
        if (now.isOfFacility()) {
            return Changes.everythingOfFacility(now.file());
        }
        List<CaseEntry> entries =
                touched.stream().map(now.file()::entry).filter(Objects::nonNull).toList();
        List<Withdrawn> gone = withdrawn.isEmpty()
                ? List.of()
                : now.file().withdrawn().stream()
                        .filter(it -> withdrawn.contains(it.root()))
                        .toList();
        return new Changes(false, entries, List.of(), gone, replaced ? now.events() : List.of());
    }

    // How long a balloon has been in place so far is told when asked; it goes on record when it has been taken out, or
    // the case has ended.
    private static boolean stillRunning(CaseFile file, CaseFact fact) {
        return fact instanceof DerivedValue value
                && value.kind() == FactKind.TIME_IN_SITU
                && file.tamponades().stream()
                        .anyMatch(it -> it.inPlace()
                                && it.insertion().equals(value.key().anchor()));
    }

    // A derived value that a reader may have seen and that comes out otherwise now is amended; one that comes out as
    // before is left as it is.
    private void addFact(CaseFile file, CaseFact fact) {
        Resource fresh = mapper.ofFact(file, fact, false);
        Observation before =
                fact instanceof DerivedValue ? (Observation) versions.latest(OBSERVATION, fresh.getIdPart()) : null;
        if (before == null) {
            versions.put(fresh);
        } else if (!saysTheSame(before, versions.asPut(fresh))) {
            versions.put(mapper.ofFact(file, fact, true));
        }
    }

    // What was read from the record and what was just mapped are alike in what they are written as alone.
    private static boolean saysTheSame(Observation before, Resource fresh) {
        Observation asFinal = before;
        if (before.getStatus() == Observation.ObservationStatus.AMENDED) {
            asFinal = before.copy();
            asFinal.setStatus(Observation.ObservationStatus.FINAL);
        }
        return ResourceText.of(asFinal).json().equals(ResourceText.of(fresh).json());
    }

    // A fact that holds no more stays on record as entered in error.
    private void addGone(FactKey key) {
        for (Resource known : known(mapper.idOf(key))) {
            versions.put(mapper.enteredInError(known));
        }
    }

    private List<Resource> known(String id) {
        List<Resource> known = new ArrayList<>();
        for (String type : TYPES) {
            @Nullable Resource resource = versions.latest(type, id);
            if (resource != null) {
                known.add(resource);
            }
        }
        return known;
    }
}
