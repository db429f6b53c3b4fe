package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.FactKey;
import example.tamponade.core.casefile.Withdrawn;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.Referral;
import example.tamponade.core.event.ReferralStep;
import example.tamponade.fhir.terms.Terms;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.Task;
import org.jspecify.annotations.Nullable;

/** One case being mapped: its events, and where its resources point. Lives for one call of the mapper. */
final class CaseScope {

    /** What the stay at the facility of the case is named by; those at others have the facility added. */
    static final String STAY = "encounter";

    final Terms terms;
    final Ids ids;
    final Frame frame;
    final CaseFile file;
    private final String softwareVersion;
    private @Nullable List<Recorded> standing;
    private @Nullable List<Recorded> withdrawn;
    private @Nullable List<ReferralCourse> referrals;
    private Map<UUID, ReferralCourse> referralByStep = Map.of();
    private final Map<String, Task> progress = new HashMap<>();

    CaseScope(Terms terms, Ids ids, String softwareVersion, CaseFile file) {
        this.terms = terms;
        this.ids = ids;
        this.frame = new Frame(terms);
        this.file = file;
        this.softwareVersion = softwareVersion;
    }

    /** Every event that stands, in order; made when it is first asked for, as most mapping needs a few of them alone. */
    List<Recorded> standing() {
        List<Recorded> made = standing;
        if (made == null) {
            made = file.entries().stream().map(this::recorded).toList();
            standing = made;
        }
        return made;
    }

    /** Every event that was withdrawn, in order. */
    List<Recorded> withdrawn() {
        List<Recorded> made = withdrawn;
        if (made == null) {
            made = file.withdrawn().stream().map(this::recorded).toList();
            withdrawn = made;
        }
        return made;
    }

    /** Every referral whose steps stand, in order. */
    List<ReferralCourse> referrals() {
        List<ReferralCourse> made = referrals;
        if (made == null) {
            made = ReferralCourse.of(standing());
            referrals = made;
            referralByStep = ReferralCourse.byStep(made);
        }
        return made;
    }

    /** The referral that a step belongs to. */
    ReferralCourse referral(Recorded step) {
        List<ReferralCourse> all = referrals();
        ReferralCourse course = step.standing == Standing.WITHDRAWN ? null : referralByStep.get(step.root);
        return course == null ? ReferralCourse.ofWithdrawn(step, all) : course;
    }

    /** The task of a referral, made once, however many of its steps bring it. */
    Task progress(ReferralCourse course, Recorded step) {
        return progress.computeIfAbsent(
                ReferralProgress.id(course, this), it -> ReferralProgress.of(course, firstOf(course, step)));
    }

    // Where no step stands any more, the first that was withdrawn tells of it, whichever is asked for.
    private Recorded firstOf(ReferralCourse course, Recorded step) {
        return course.decision() != null || !course.steps().isEmpty()
                ? step
                : withdrawn().stream()
                        .filter(it -> it.data() instanceof Referral)
                        .filter(it -> ReferralCourse.step(it) != ReferralStep.DECIDED)
                        .findFirst()
                        .orElse(step);
    }

    /** The events that stand, or, when none does, those that were withdrawn. */
    List<Recorded> standingOrElseWithdrawn() {
        return standing().isEmpty() ? withdrawn() : standing();
    }

    Recorded recorded(CaseEntry entry) {
        Standing standing = entry.corrected() ? Standing.CORRECTED : Standing.AS_RECORDED;
        Marks marks = Marks.of(entry.event(), entry.facts(), file.protocol());
        return new Recorded(this, entry.root(), entry.event(), entry.tamponade(), entry.recognition(), standing, marks);
    }

    Recorded recorded(Withdrawn withdrawn) {
        return replaced(withdrawn.root(), withdrawn.event());
    }

    /** A version that no longer stands: what it brought alone is entered in error. */
    Recorded replaced(UUID root, EventEnvelope event) {
        Marks marks = Marks.of(event, List.of(), file.protocol());
        return new Recorded(this, root, event, null, null, Standing.WITHDRAWN, marks);
    }

    /** The entries that stand, in order. */
    Collection<CaseEntry> entries() {
        return file.entries();
    }

    @Nullable
    CaseEntry entry(UUID root) {
        return file.entry(root);
    }

    CodeableConcept item(String code) {
        return terms.local("bedside-item", code);
    }

    /** An id of which the case has one. */
    String caseId(String role) {
        return ids.ofCase(file.caseId(), role);
    }

    Reference mother() {
        return reference("Patient", caseId("mother"));
    }

    /** The stay during which an event was recorded: of each facility that records for the case there is one. */
    Reference encounter(EventEnvelope event) {
        return reference("Encounter", stayId(event.facilityId()));
    }

    /** The stay during which the event was recorded that a fact hangs on. */
    Reference encounter(FactKey fact) {
        CaseEntry entry = entry(fact.anchor());
        return entry == null ? reference("Encounter", stayId(file.caseId().facilityId())) : encounter(entry.event());
    }

    /** The id of the stay at a facility. */
    String stayId(String facilityId) {
        return caseId(facilityId.equals(file.caseId().facilityId()) ? STAY : STAY + "/" + facilityId);
    }

    Reference episode() {
        return reference("EpisodeOfCare", caseId("episode"));
    }

    Reference condition() {
        return reference("Condition", caseId("condition"));
    }

    Reference facility(String facilityId) {
        return reference("Location", ids.ofFacility(facilityId));
    }

    Reference organization(String facilityId) {
        return reference("Organization", ids.ofOrganization(facilityId));
    }

    Reference recorder(EventEnvelope event) {
        return reference("PractitionerRole", ids.ofRecorder(event.facilityId(), event.recordedBy()));
    }

    Reference software() {
        return reference("Device", ids.ofSoftware(softwareVersion));
    }

    String softwareVersion() {
        return softwareVersion;
    }

    Reference reference(String type, String id) {
        return new Reference(type + "/" + id);
    }

    Reference reference(Resource resource) {
        return reference(resource.fhirType(), resource.getIdPart());
    }
}
