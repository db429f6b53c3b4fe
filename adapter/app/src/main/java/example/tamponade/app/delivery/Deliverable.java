package example.tamponade.app.delivery;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.outbox.DueResource;
import example.tamponade.app.outbox.HeldResources;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.fhir.bundle.CaseBundles;
import example.tamponade.fhir.bundle.CaseView;
import example.tamponade.fhir.bundle.Excerpt;
import example.tamponade.fhir.pseudonym.PseudonymisedCase;
import example.tamponade.fhir.pseudonym.Pseudonymiser;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** What a destination gets of a case: all that is due, or what its view and its types leave of the case. */
final class Deliverable {

    private final FhirContext fhir = FhirContext.forR4Cached();
    private final ResourceRecord record;
    private final HeldResources held;
    private final CaseBundles bundles;
    private final @Nullable Pseudonymiser pseudonymiser;

    Deliverable(ResourceRecord record, HeldResources held, CaseBundles bundles, @Nullable Pseudonymiser pseudonymiser) {
        this.pseudonymiser = pseudonymiser;
        this.record = record;
        this.held = held;
        this.bundles = bundles;
    }

    /** Whether the mother of the case refused that her record is shared. */
    boolean isRestricted(String caseKey) {
        return mother(caseKey).filter(CaseBundles::isRestricted).isPresent();
    }

    /** The mother of a case; empty for a facility. */
    Optional<Patient> mother(String caseKey) {
        return record.ofCase(caseKey, "Patient").stream()
                .map(Patient.class::cast)
                .findFirst();
    }

    /** Whether the destination finds mothers by an identifier that the mother of the case does not have. */
    boolean lacksIdentifier(Destination destination, String caseKey) {
        String system = destination.motherBy();
        return system != null
                && mother(caseKey)
                        .filter(it -> identifier(system, it).isEmpty())
                        .isPresent();
    }

    private static Optional<Identifier> identifier(String system, Patient mother) {
        return mother.getIdentifier().stream()
                .filter(it -> system.equals(it.getSystem()))
                .findFirst();
    }

    DueContent content(String name, Destination destination, String caseKey, List<DueResource> due) {
        if (destination.takesAll()) {
            return new DueContent(
                    due.stream().map(DueResource::name).toList(), this::onRecord, names -> held.of(name, names));
        }
        Map<String, Sendable> chosen = chosen(name, destination, caseKey);
        return new DueContent(
                chosen.keySet(),
                names -> names.stream().filter(chosen::containsKey).collect(Collectors.toMap(it -> it, chosen::get)),
                names -> held.of(name, names));
    }

    private Map<String, Sendable> onRecord(Collection<String> names) {
        Map<String, Sendable> found = new LinkedHashMap<>();
        record.versions(names)
                .forEach((name, version) -> found.put(
                        name,
                        Sendable.of(
                                (Resource) fhir.newJsonParser().parseResource(version.content()), version.content())));
        return found;
    }

    // What the destination was sent before is kept up to date there, whether it still belongs to the view or not.
    private Map<String, Sendable> chosen(String name, Destination destination, String caseKey) {
        List<Resource> all = record.ofCase(caseKey);
        // A view is one of a case; a facility's own resources are few.
        CaseView view = CaseKey.caseId(caseKey) == null ? CaseView.FULL : destination.view();
        PseudonymisedCase others = destination.pseudonymised()
                ? Objects.requireNonNull(pseudonymiser).of(caseKey, all)
                : null;
        List<Resource> excerpt = bundles.excerpt(new Excerpt(view, destination.types(), there(name, others, all)), all);
        Map<String, Sendable> chosen = new LinkedHashMap<>();
        String mother = destination.ids() == ResourceIds.RECEIVER ? identifiers(all) : "";
        String motherThere = destination.motherBy() == null ? null : motherThere(destination.motherBy(), all);
        for (Resource resource : others == null ? excerpt : others.of(excerpt)) {
            if (motherThere != null) {
                if (resource instanceof Patient) {
                    continue;
                }
                pointTo(motherThere, resource);
            }
            // The version is ours, not the destination's.
            resource.setId(resource.getIdPart());
            resource.getMeta().setVersionId(null);
            chosen.put(name(resource), Sendable.with(mother, resource));
        }
        return chosen;
    }

    // Whatever is sent of a case is sent again when she turns out to be somebody else.
    private static String identifiers(List<Resource> all) {
        return all.stream()
                .filter(Patient.class::isInstance)
                .flatMap(it -> ((Patient) it).getIdentifier().stream())
                .map(it -> it.getSystem() + "|" + it.getValue())
                .collect(Collectors.joining(" ", " of ", ""));
    }

    // A conditional reference (HL7 FHIR R4, RESTful API, 3.1.0.11.2); null for what is of no mother.
    private static @Nullable String motherThere(String system, List<Resource> all) {
        return all.stream()
                .filter(Patient.class::isInstance)
                .findFirst()
                .flatMap(it -> identifier(system, (Patient) it))
                .map(it -> "Patient?" + ReceiverIds.query(it))
                .orElse(null);
    }

    private void pointTo(String mother, Resource resource) {
        fhir.newTerser().getAllResourceReferences(resource).stream()
                .map(it -> (Reference) it.getResourceReference())
                .filter(it -> String.valueOf(it.getReference()).startsWith("Patient/"))
                .forEach(it -> it.setReference(mother));
    }

    // Which of the resources the destination has, by the names that it has them under.
    private Set<String> there(String destination, @Nullable PseudonymisedCase others, List<Resource> all) {
        Map<String, String> theirs = new LinkedHashMap<>();
        all.forEach(it ->
                theirs.put(others == null ? name(it) : it.fhirType() + "/" + others.id(it.getIdPart()), name(it)));
        return held.of(destination, List.copyOf(theirs.keySet())).keySet().stream()
                .map(it -> Objects.requireNonNull(theirs.get(it)))
                .collect(Collectors.toSet());
    }

    private static String name(Resource resource) {
        return resource.fhirType() + "/" + resource.getIdPart();
    }
}
