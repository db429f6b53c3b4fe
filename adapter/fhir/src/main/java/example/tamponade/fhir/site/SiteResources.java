package example.tamponade.fhir.site;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.util.FhirTerser;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.CanonicalType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.ConceptMap;
import org.hl7.fhir.r4.model.DomainResource;
import org.hl7.fhir.r4.model.Enumerations.ConceptMapEquivalence;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Location;
import org.hl7.fhir.r4.model.Organization;
import org.hl7.fhir.r4.model.Resource;

/** Puts into resources what an adaptation file says, once, however often it is asked. */
final class SiteResources {

    // What the target of such a map says is true wherever its source is.
    private static final Set<ConceptMapEquivalence> TRUE_TOO =
            Set.of(ConceptMapEquivalence.EQUAL, ConceptMapEquivalence.EQUIVALENT, ConceptMapEquivalence.WIDER);

    private final FhirTerser terser = FhirContext.forR4Cached().newTerser();
    private final Adaptation adaptation;
    private final String base;
    private final Map<String, String> systems;
    private final List<ConceptMap> maps;

    /**
     * Adapts resources.
     *
     * @param base the canonical base of the adapter's own
     */
    SiteResources(Adaptation adaptation, SitePackages packages, String base) {
        this.adaptation = adaptation;
        this.base = base;
        this.systems = adaptation.systems().stream()
                .collect(Collectors.toMap(
                        Adaptation.SystemName::sent, Adaptation.SystemName::site, (one, other) -> other));
        this.maps = adaptation.maps().stream()
                .map(it -> Objects.requireNonNull(packages.map(it.url())))
                .toList();
    }

    /** The resource itself when the file says nothing of it, or an adapted copy. */
    Resource adapted(Resource resource) {
        Resource copy = resource.copy();
        claim(copy);
        terser.getAllPopulatedChildElementsOfType(copy, Identifier.class).forEach(this::name);
        identify(copy);
        if (!maps.isEmpty()) {
            terser.getAllPopulatedChildElementsOfType(copy, CodeableConcept.class)
                    .forEach(this::code);
        }
        extend(copy);
        return copy.equalsDeep(resource) ? resource : copy;
    }

    private void claim(Resource resource) {
        for (Adaptation.Claim claim : adaptation.claims()) {
            if (isMeant(claim.resource(), resource) && !resource.getMeta().hasProfile(claim.profile())) {
                resource.getMeta().addProfile(claim.profile());
            }
        }
    }

    private boolean isMeant(String named, Resource resource) {
        return named.equals(resource.fhirType())
                || resource.getMeta().getProfile().stream()
                        .map(CanonicalType::getValue)
                        .anyMatch((base + "/StructureDefinition/" + named)::equals);
    }

    private void name(Identifier identifier) {
        String site = systems.get(String.valueOf(identifier.getSystem()));
        if (site != null) {
            identifier.setSystem(site);
        }
    }

    private void identify(Resource resource) {
        List<Identifier> identifiers = resource instanceof Organization organization
                ? organization.getIdentifier()
                : resource instanceof Location location ? location.getIdentifier() : List.of();
        String facility = identifiers.stream()
                .filter(it -> it.hasSystem() && it.getSystem().startsWith(base))
                .map(Identifier::getValue)
                .findFirst()
                .orElse("");
        for (Adaptation.FacilityId id : adaptation.facilities()) {
            boolean meant =
                    id.type().equals(resource.fhirType()) && id.facility().equals(facility);
            if (meant && identifiers.stream().noneMatch(it -> it.equalsDeep(id.identifier()))) {
                identifiers.add(id.identifier().copy());
            }
        }
    }

    // Beside the adapter's own, which stand last.
    private void code(CodeableConcept concept) {
        for (Coding coding : List.copyOf(concept.getCoding())) {
            for (Coding target : targets(coding)) {
                if (concept.getCoding().stream().noneMatch(it -> isSame(it, target))) {
                    concept.getCoding().add(placeOfOurs(concept), target);
                }
            }
        }
    }

    private List<Coding> targets(Coding coding) {
        return maps.stream()
                .flatMap(it -> it.getGroup().stream())
                .filter(it -> it.getSource().equals(coding.getSystem()))
                .flatMap(group -> group.getElement().stream()
                        .filter(it -> it.getCode().equals(coding.getCode()))
                        .flatMap(it -> it.getTarget().stream())
                        .filter(it -> TRUE_TOO.contains(it.getEquivalence()))
                        .map(it -> new Coding(group.getTarget(), it.getCode(), it.getDisplay())))
                .toList();
    }

    private static boolean isSame(Coding one, Coding other) {
        return Objects.equals(one.getSystem(), other.getSystem()) && Objects.equals(one.getCode(), other.getCode());
    }

    private int placeOfOurs(CodeableConcept concept) {
        List<Coding> codings = concept.getCoding();
        for (int i = 0; i < codings.size(); i++) {
            if (String.valueOf(codings.get(i).getSystem()).startsWith(base)) {
                return i;
            }
        }
        return codings.size();
    }

    private void extend(Resource resource) {
        if (resource instanceof DomainResource domain) {
            for (Adaptation.FixedExtension fixed : adaptation.extensions()) {
                if (isMeant(fixed.resource(), resource)
                        && !domain.hasExtension(fixed.extension().getUrl())) {
                    domain.addExtension(fixed.extension().copy());
                }
            }
        }
    }
}
