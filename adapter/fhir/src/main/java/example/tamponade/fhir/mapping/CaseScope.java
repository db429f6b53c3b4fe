package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.Withdrawn;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.fhir.terms.Terms;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** One case being mapped: its events, and where its resources point. Lives for one call of the mapper. */
final class CaseScope {

    final Terms terms;
    final Ids ids;
    final Frame frame;
    final CaseFile file;
    private final String softwareVersion;
    private @Nullable List<Recorded> standing;
    private @Nullable List<Recorded> withdrawn;

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

    Reference encounter() {
        return reference("Encounter", caseId("encounter"));
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
