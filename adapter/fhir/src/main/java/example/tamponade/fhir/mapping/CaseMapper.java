package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.CaseFact;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactKey;
import example.tamponade.core.casefile.Withdrawn;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.terms.Terms;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;

/**
 * From a folded case to FHIR R4 resources.
 *
 * <p>The same case gives the same resources, byte for byte, on every run and in whatever order its events came: ids are
 * names, times come from the events alone. References stay within {@link #resources}. Safe for several threads.
 */
public final class CaseMapper {

    /** What stands beside every warning and every derived value. */
    public static final String CAUTION = "Decision support for review by licensed clinicians; not a medical device. "
            + "Local protocols and licensed judgement decide.";

    private final Terms terms;
    private final Ids ids;
    private final String softwareVersion;

    /**
     * A mapper for one version of the software.
     *
     * @param terms code systems and canonical base
     * @param softwareVersion version of the adapter, for example {@code 0.1.0}; named by every derived value
     */
    public CaseMapper(Terms terms, String softwareVersion) {
        this.terms = terms;
        this.ids = new Ids(terms.base());
        this.softwareVersion = softwareVersion;
    }

    /**
     * Every resource of the case: first what the case has once, then event by event what it brought, what was derived at
     * it and its provenance, last what was withdrawn. No id comes twice.
     */
    public List<Resource> resources(CaseFile file, PayloadDigests digests) {
        CaseScope scope = scope(file);
        Map<UUID, List<CaseFact>> facts = new LinkedHashMap<>();
        file.facts()
                .forEach(it -> facts.computeIfAbsent(it.key().anchor(), anchor -> new ArrayList<>())
                        .add(it));
        Collected collected = new Collected();
        collected.add(CaseMappers.map(scope));
        for (CaseEntry entry : file.entries()) {
            collected.add(EventMappers.map(scope.recorded(entry)));
            facts.getOrDefault(entry.root(), List.of()).forEach(it -> collected.add(FactMappers.map(it, false, scope)));
            collected.add(provenance(entry, digests, scope));
            collected.add(ProvenanceMapper.ofDerivation(entry, scope));
        }
        file.withdrawn().forEach(it -> collected.add(withdrawn(it, digests, scope)));
        return collected.all();
    }

    /**
     * What the case has once and whatever changes its state as the case goes on: mother, stay, case, haemorrhage,
     * facility, recorders, software, tamponades with their preparation, referrals.
     */
    public List<Resource> ofCase(CaseFile file) {
        return CaseMappers.map(scope(file));
    }

    /** What one event brought, in its present state, and its provenance and that of what was derived at it. */
    public List<Resource> ofEvent(CaseFile file, CaseEntry entry, PayloadDigests digests) {
        CaseScope scope = scope(file);
        Collected collected = new Collected();
        collected.add(EventMappers.map(scope.recorded(entry)));
        collected.add(provenance(entry, digests, scope));
        collected.add(ProvenanceMapper.ofDerivation(entry, scope));
        return collected.all();
    }

    /** What a withdrawn event had brought, as entered in error, and the provenance of it and of its retraction. */
    public List<Resource> ofWithdrawn(CaseFile file, Withdrawn withdrawn, PayloadDigests digests) {
        return withdrawn(withdrawn, digests, scope(file));
    }

    /**
     * What events left behind that no longer stand: an event that was corrected, a correction that was itself replaced or
     * retracted, and that retraction. What such an event had brought and what stands in its place does not is entered in
     * error; each has its provenance.
     *
     * @param received every event of the case, in any order
     */
    public List<Resource> ofReplaced(CaseFile file, Collection<EventEnvelope> received, PayloadDigests digests) {
        return Replaced.map(scope(file), received, digests);
    }

    /**
     * The resource of one derived fact.
     *
     * @param amended whether the fact was sent before with other content
     */
    public Resource ofFact(CaseFile file, CaseFact fact, boolean amended) {
        return FactMappers.map(fact, amended, scope(file));
    }

    /**
     * Every resource of a facility's own events, which belong to no case.
     *
     * @param events events of one facility; corrections and retractions among them take effect
     * @param protocol says from when a record counts as a late entry
     */
    public List<Resource> facility(
            String facilityId, Collection<EventEnvelope> events, CareProtocol protocol, PayloadDigests digests) {
        CaseFile file = CaseFile.of(facilityId, protocol, events);
        CaseScope scope = scope(file);
        Collected collected = new Collected();
        collected.add(SurroundingsMapper.map(scope));
        for (CaseEntry entry : file.entries()) {
            collected.add(EventMappers.map(scope.recorded(entry)));
            entry.facts().stream()
                    .filter(DerivedValue.class::isInstance)
                    .forEach(it -> collected.add(FactMappers.map(it, false, scope)));
            collected.add(provenance(entry, digests, scope));
            collected.add(ProvenanceMapper.ofDerivation(entry, scope));
        }
        file.withdrawn().forEach(it -> collected.add(withdrawn(it, digests, scope)));
        return collected.all();
    }

    /** The id of something a case has once, for example its {@code mother}. */
    public String idOfCase(CaseFile file, String role) {
        return ids.ofCase(file.caseId(), role);
    }

    /** The id of the resource that a fact becomes; for one that holds no more, where it is stored. */
    public String idOf(FactKey key) {
        return ids.of(key);
    }

    /** A copy of a resource of ours, marked as entered in error in the field that its type has for it. */
    public Resource enteredInError(Resource resource) {
        Resource copy = resource.copy();
        EnteredInError.mark(copy);
        return copy;
    }

    private CaseScope scope(CaseFile file) {
        return new CaseScope(terms, ids, softwareVersion, file);
    }

    private static Resource provenance(CaseEntry entry, PayloadDigests digests, CaseScope scope) {
        EventEnvelope event = entry.event();
        List<Reference> targets = EventMappers.map(scope.recorded(entry)).stream()
                .map(scope::reference)
                .toList();
        return ProvenanceMapper.ofEvent(event, targets, digests.sha256Of(event.eventId()), scope);
    }

    private static List<Resource> withdrawn(Withdrawn withdrawn, PayloadDigests digests, CaseScope scope) {
        List<Resource> resources = new ArrayList<>(EventMappers.map(scope.recorded(withdrawn)));
        List<Reference> targets = resources.stream().map(scope::reference).toList();
        for (EventEnvelope event : List.of(withdrawn.event(), withdrawn.retraction())) {
            resources.add(ProvenanceMapper.ofEvent(event, targets, digests.sha256Of(event.eventId()), scope));
        }
        return resources;
    }
}
