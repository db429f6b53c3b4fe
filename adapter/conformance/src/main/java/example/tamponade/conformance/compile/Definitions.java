package example.tamponade.conformance.compile;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.context.support.IValidationSupport;
import ca.uhn.fhir.context.support.ValidationSupportContext;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.PrePopulatedValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.SnapshotGeneratingValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.r4.model.MetadataResource;
import org.hl7.fhir.r4.model.StructureDefinition;
import org.hl7.fhir.r4.model.ValueSet;
import org.hl7.fhir.utilities.npm.NpmPackage;
import org.jspecify.annotations.Nullable;

/** The definitions of a package, and FHIR R4 behind it. */
final class Definitions {

    private static final String CORE = "http://hl7.org/fhir/StructureDefinition/";

    private final List<StructureDefinition> profiles = new ArrayList<>();
    private final List<String> valueSets = new ArrayList<>();
    private final PrePopulatedValidationSupport own;
    private final IValidationSupport all;
    private final String canonical;

    private Definitions(FhirContext fhir, String canonical) {
        this.canonical = canonical;
        this.own = new PrePopulatedValidationSupport(fhir);
        this.all = new ValidationSupportChain(
                own,
                new DefaultProfileValidationSupport(fhir),
                new InMemoryTerminologyServerValidationSupport(fhir),
                new CommonCodeSystemsTerminologyService(fhir));
    }

    /**
     * Reads FHIR NPM packages.
     *
     * @throws IOException when one is no such package
     */
    static Definitions read(FhirContext fhir, List<InputStream> packages) throws IOException {
        List<NpmPackage> all = new ArrayList<>();
        for (InputStream tgz : packages) {
            all.add(NpmPackage.fromPackage(tgz));
        }
        Definitions definitions = new Definitions(fhir, all.get(0).canonical());
        for (NpmPackage npm : all) {
            definitions.add(npm, fhir);
        }
        definitions.profiles.replaceAll(it -> definitions.withSnapshot(it, fhir));
        definitions.profiles.sort(Comparator.comparing(StructureDefinition::getUrl));
        return definitions;
    }

    // Not every package comes with them.
    private StructureDefinition withSnapshot(StructureDefinition profile, FhirContext fhir) {
        if (profile.hasSnapshot()) {
            return profile;
        }
        StructureDefinition whole =
                (StructureDefinition) Objects.requireNonNull(new SnapshotGeneratingValidationSupport(fhir)
                        .generateSnapshot(
                                new ValidationSupportContext(all), profile, profile.getUrl(), null, profile.getName()));
        own.addResource(whole);
        return whole;
    }

    private void add(NpmPackage npm, FhirContext fhir) throws IOException {
        for (String type : List.of("StructureDefinition", "ValueSet", "CodeSystem")) {
            for (String file : npm.listResources(type)) {
                String json = new String(npm.loadResource(file).readAllBytes(), StandardCharsets.UTF_8);
                add((MetadataResource) fhir.newJsonParser().parseResource(json));
            }
        }
    }

    private void add(MetadataResource resource) {
        own.addResource(resource);
        if (resource instanceof ValueSet set) {
            valueSets.add(set.getUrl());
        }
        if (resource instanceof StructureDefinition profile) {
            profiles.add(profile);
        }
    }

    /** The profiles of the package itself, by their addresses. */
    List<StructureDefinition> profiles() {
        return profiles;
    }

    /** The extensions of FHIR R4: any resource may have them. */
    List<StructureDefinition> coreExtensions() {
        List<StructureDefinition> core = Objects.requireNonNull(all.fetchAllStructureDefinitions());
        return core.stream()
                .filter(it -> it.getType().equals("Extension") && it.getUrl().startsWith(CORE))
                .filter(it -> it.getDerivation() == StructureDefinition.TypeDerivationRule.CONSTRAINT)
                .sorted(Comparator.comparing(StructureDefinition::getUrl))
                .toList();
    }

    /** The value sets of the package. */
    List<String> valueSets() {
        return valueSets;
    }

    /** The address that the package's own definitions begin with. */
    String canonical() {
        return canonical;
    }

    /** The definition of that address, or of that type of FHIR R4; null when there is none. */
    @Nullable
    StructureDefinition find(String urlOrType) {
        String url = urlOrType.contains(":") ? urlOrType : CORE + urlOrType;
        return (StructureDefinition) all.fetchStructureDefinition(url);
    }

    /** What else there is: value sets, code systems, expansion. */
    IValidationSupport support() {
        return all;
    }
}
