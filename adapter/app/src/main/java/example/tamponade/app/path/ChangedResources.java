package example.tamponade.app.path;

import example.tamponade.app.records.RecordParts;
import example.tamponade.core.casefile.CaseChange;
import example.tamponade.core.casefile.CaseFact;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactKey;
import example.tamponade.core.casefile.FactKind;
import example.tamponade.core.casefile.Flag;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.mapping.PayloadDigests;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Resource;

/** Which resources does a change of a case touch, and how are they now? */
final class ChangedResources {

    private final CaseMapper mapper;
    private final NewVersions versions;

    /** Tells them against what is on record. */
    ChangedResources(CaseMapper mapper, NewVersions versions) {
        this.mapper = mapper;
        this.versions = versions;
    }

    /**
     * Of an event.
     *
     * @param received every event of the case up to this one; asked for when something is replaced
     */
    List<Resource> ofEvent(
            EventEnvelope event, CaseChange change, Supplier<List<EventEnvelope>> received, PayloadDigests digests) {
        CaseFile file = change.after();
        List<Resource> resources = new ArrayList<>(mapper.ofCase(file));
        change.entries().forEach(it -> resources.addAll(mapper.ofEvent(file, it, digests)));
        change.withdrawn().forEach(it -> resources.addAll(mapper.ofWithdrawn(file, it, digests)));
        change.facts().stream().filter(it -> !stillRunning(file, it)).forEach(it -> resources.add(ofFact(file, it)));
        change.gone().forEach(it -> resources.addAll(gone(it)));
        if (event.corrects() != null || event.retracts() != null) {
            resources.addAll(mapper.ofReplaced(file, received.get(), digests));
        }
        return RecordParts.distinct(resources);
    }

    /** Of the passing of time: only warnings. */
    List<Resource> ofTime(CaseChange change) {
        List<Resource> resources = new ArrayList<>();
        change.facts().stream().filter(Flag.class::isInstance).forEach(it -> resources.add(ofFact(change.after(), it)));
        change.gone().forEach(it -> resources.addAll(gone(it)));
        return RecordParts.distinct(resources);
    }

    // How long a balloon has been in place so far is told when asked; it goes on record when it has been taken out.
    private static boolean stillRunning(CaseFile file, CaseFact fact) {
        return fact instanceof DerivedValue value
                && value.kind() == FactKind.TIME_IN_SITU
                && file.tamponades().stream()
                        .anyMatch(it -> it.inPlace()
                                && it.insertion().equals(value.key().anchor()));
    }

    // A derived value that is on record already and comes out otherwise now is amended; one that comes out as before is
    // left as it is.
    private Resource ofFact(CaseFile file, CaseFact fact) {
        Resource fresh = mapper.ofFact(file, fact, false);
        Optional<Resource> known = fact instanceof DerivedValue
                ? versions.current("Observation", mapper.idOf(fact.key()))
                : Optional.empty();
        if (known.isEmpty()) {
            return fresh;
        }
        Observation before = (Observation) known.get();
        Observation asFinal = before.copy();
        asFinal.setStatus(Observation.ObservationStatus.FINAL);
        return asFinal.equalsDeep(fresh) ? before : mapper.ofFact(file, fact, true);
    }

    // A fact that holds no more stays on record as entered in error.
    private List<Resource> gone(FactKey key) {
        List<Resource> gone = new ArrayList<>();
        for (String type : List.of("Observation", "Flag", "DetectedIssue")) {
            versions.current(type, mapper.idOf(key)).map(mapper::enteredInError).ifPresent(gone::add);
        }
        return gone;
    }
}
