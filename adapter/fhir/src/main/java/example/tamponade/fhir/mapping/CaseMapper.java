package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.CaseFact;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.FactKey;
import example.tamponade.core.casefile.Withdrawn;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.fhir.terms.Terms;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;

/**
 * From a folded case to FHIR R4 resources.
 *
 * <p>The same case gives the same resources, byte for byte, on every run and in whatever order its events came: ids are
 * names, times come from the events alone. References stay within the case. Safe for several threads.
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
     * Everything of a case that has these events, as if all of it had just changed.
     *
     * @param received every event of the case, in any order
     */
    public List<Resource> resources(CaseFile file, Collection<EventEnvelope> received, PayloadDigests digests) {
        return map(file, Changes.everything(file, received), digests);
    }

    /**
     * What these changes touch, in its present state: first what the case has once, then event by event what it brought,
     * what was derived at it and its provenance, then what was withdrawn and what stands no more. No id comes twice.
     */
    public List<Resource> map(CaseFile file, Changes changes, PayloadDigests digests) {
        CaseScope scope = scope(file);
        Collected collected = new Collected();
        collected.add(changes.ofFacility() ? SurroundingsMapper.map(scope) : CaseMappers.map(scope));
        Map<UUID, List<CaseFact>> facts = changes.factsByEvent();
        for (CaseEntry entry : changes.entries()) {
            addEntry(entry, facts.getOrDefault(entry.root(), List.of()), digests, scope, collected);
        }
        changes.withdrawn().forEach(it -> collected.add(withdrawn(it, digests, scope)));
        if (!changes.received().isEmpty()) {
            collected.add(Replaced.map(scope, changes.received(), digests));
        }
        return collected.all();
    }

    private static void addEntry(
            CaseEntry entry, List<CaseFact> facts, PayloadDigests digests, CaseScope scope, Collected collected) {
        List<Resource> brought = EventMappers.map(scope.recorded(entry));
        collected.add(brought);
        facts.forEach(it -> collected.add(FactMappers.map(it, false, scope)));
        collected.add(provenance(entry.event(), brought, digests, scope));
        collected.add(ProvenanceMapper.ofDerivation(entry, scope));
    }

    /**
     * The resource of one derived fact.
     *
     * @param amended whether the fact was sent before with other content
     */
    public Resource ofFact(CaseFile file, CaseFact fact, boolean amended) {
        return FactMappers.map(fact, amended, scope(file));
    }

    /** What an event brought under an id that is its no more, as entered in error. */
    public List<Resource> ofFormerRoot(CaseFile file, UUID root, EventEnvelope event) {
        return EventMappers.map(scope(file).replaced(root, event));
    }

    /** What the facts of an entry were derived from; none when it has no fact. */
    public List<Resource> ofDerivation(CaseFile file, CaseEntry entry) {
        return ProvenanceMapper.ofDerivation(entry, scope(file));
    }

    /** The doubt about a case that an event of it is not on record; the case has another event. */
    public Resource ofSetAside(CaseFile file, EventEnvelope event) {
        return RecordIssueMapper.ofSetAside(event, scope(file));
    }

    /** The id of something a case has once, for example its {@code mother}. */
    public String idOfCase(CaseFile file, String role) {
        return ids.ofCase(file.caseId(), role);
    }

    /** Labels what is made of the whole case as restricted when the mother refused that her record is shared. */
    public <T extends Resource> T labelled(T resource, CaseFile file) {
        return SecurityLabel.put(resource, file);
    }

    /** The id of the organization that answers for a facility. */
    public String idOfOrganization(String facilityId) {
        return ids.ofOrganization(facilityId);
    }

    /** The task that follows steps of a referral whose decision is not on record; none where each is. */
    public Optional<Resource> undecidedReferral(CaseFile file) {
        CaseScope scope = scope(file);
        return scope.referrals().stream()
                .filter(it -> it.decision() == null)
                .findFirst()
                .map(it -> scope.progress(it, it.steps().get(0)));
    }

    /** The id of what is named by its content alone, by a digest of it. */
    public String idOfContent(String digest) {
        return ids.ofContent(digest);
    }

    /** The version of the adapter that the resources name. */
    public String softwareVersion() {
        return softwareVersion;
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

    private static Resource provenance(
            EventEnvelope event, List<Resource> brought, PayloadDigests digests, CaseScope scope) {
        List<Reference> targets = brought.stream().map(scope::reference).toList();
        return ProvenanceMapper.ofEvent(event, targets, digests.sha256Of(event.eventId()), scope);
    }

    private static List<Resource> withdrawn(Withdrawn withdrawn, PayloadDigests digests, CaseScope scope) {
        List<Resource> brought = EventMappers.map(scope.recorded(withdrawn));
        List<Resource> resources = new ArrayList<>(brought);
        for (EventEnvelope event : List.of(withdrawn.event(), withdrawn.retraction())) {
            resources.add(provenance(event, brought, digests, scope));
        }
        return resources;
    }
}
