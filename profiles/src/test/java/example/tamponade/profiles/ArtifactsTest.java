package example.tamponade.profiles;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.support.ConceptValidationOptions;
import ca.uhn.fhir.context.support.IValidationSupport;
import ca.uhn.fhir.context.support.ValidationSupportContext;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.ResourceAccessMode;
import org.junit.jupiter.api.parallel.ResourceLock;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Profiles, extensions and terminology as FHIR asks for them and as this project wants them. */
@ResourceLock(value = Published.DEFINITIONS, mode = ResourceAccessMode.READ)
class ArtifactsTest {

    private static final String R4 = "http://hl7.org/fhir/StructureDefinition/";

    // Of an extension the validator would work out the snapshot anew, and fetch FHIR R4 over the network for it. The
    // build
    // has worked it out, strictly parsed, and every extension is used in an example.
    static Stream<Arguments> artifacts() {
        return Published.resources("package")
                .filter(it -> !Published.text(it, "type").equals("Extension"))
                .map(it -> Arguments.of(Published.text(it, "resourceType") + "/" + Published.text(it, "id"), it));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("artifacts")
    void isValidFhir(String name, ObjectNode artifact) {
        assertThat(Published.errors(artifact)).as(name).isEmpty();
    }

    @Test
    void addressesAreUniqueAndOurs() {
        List<String> addresses = Published.resources("package")
                .map(it -> Published.text(it, "url"))
                .toList();
        assertThat(addresses).doesNotHaveDuplicates();
        assertThat(addresses.stream().filter(it -> !it.startsWith(Published.BASE + "/")))
                .containsExactlyInAnyOrder(
                        "http://loinc.org",
                        "http://snomed.info/sct",
                        "http://hl7.org/fhir/sid/icd-10",
                        "http://www.whocc.no/atc");
    }

    @Test
    void vitalSignsStandOnThePublishedProfiles() {
        Map<String, String> parents = new TreeMap<>();
        Published.profiles().forEach(it -> parents.put(Published.text(it, "id"), Published.text(it, "baseDefinition")));
        assertThat(parents)
                .containsEntry("vital-blood-pressure", R4 + "bp")
                .containsEntry("vital-pulse", R4 + "heartrate")
                .containsEntry("vital-respirations", R4 + "resprate")
                .containsEntry("vital-oxygen-saturation", R4 + "oxygensat")
                .containsEntry("vital-temperature", R4 + "bodytemp")
                .containsEntry("mother-weight", R4 + "bodyweight")
                .containsEntry("mother-height", R4 + "bodyheight");
    }

    @Test
    void everyProfileHasItsSnapshot() {
        assertThat(Published.all("StructureDefinition")).allSatisfy(profile -> {
            assertThat(profile.at("/snapshot/element").size())
                    .as(Published.text(profile, "id"))
                    .isGreaterThan(profile.at("/differential/element").size());
            assertThat(Published.text(profile, "derivation")).isEqualTo("constraint");
            assertThat(Published.text(profile, "fhirVersion")).isEqualTo("4.0.1");
        });
    }

    @Test
    void whatAProfileNamesMustBeSupported() {
        for (JsonNode profile : Published.profiles().toList()) {
            for (JsonNode element : profile.at("/differential/element")) {
                boolean named = Published.text(element, "id").contains(".")
                        && !element.path("max").asText().equals("0");
                assertThat(element.path("mustSupport").asBoolean())
                        .as(Published.text(element, "id"))
                        .isEqualTo(named);
            }
        }
    }

    @Test
    void everyInvariantIsOneSentenceWithOneNegativeExampleAtLeast() throws Exception {
        Map<String, Set<String>> sentences = new TreeMap<>();
        Published.all("StructureDefinition").forEach(profile -> {
            for (JsonNode element : profile.at("/differential/element")) {
                for (JsonNode constraint : element.path("constraint")) {
                    sentences
                            .computeIfAbsent(Published.text(constraint, "key"), key -> new TreeSet<>())
                            .add(Published.text(constraint, "human"));
                    assertThat(Published.text(constraint, "severity")).isEqualTo("error");
                }
            }
        });
        assertThat(sentences.keySet()).allMatch(key -> key.matches("tam(-[a-z]+)+-\\d"));
        assertThat(sentences.values()).allMatch(humans -> humans.size() == 1);
        assertThat(sentences.values().stream().flatMap(Set::stream)).allMatch(human -> human.matches("[A-Z].*[.]"));
        Set<String> shown = NegativeExamplesTest.negatives()
                .map(negative -> Published.text((JsonNode) negative.get()[2], "error"))
                .collect(Collectors.toSet());
        assertThat(shown).containsAll(sentences.keySet());
    }

    @Test
    void everyCodeOfAValueSetExists() {
        ValidationSupportChain support = RecordPackage.support(Published.FHIR);
        ValidationSupportContext context = new ValidationSupportContext(support);
        List<String> unknown = new ArrayList<>();
        Published.all("ValueSet").forEach(valueSet -> {
            for (JsonNode include : valueSet.at("/compose/include")) {
                String system = Published.text(include, "system");
                for (JsonNode concept : include.path("concept")) {
                    IValidationSupport.CodeValidationResult result = support.validateCode(
                            context,
                            new ConceptValidationOptions(),
                            system,
                            Published.text(concept, "code"),
                            null,
                            null);
                    if (result == null || !result.isOk()) {
                        unknown.add(system + " " + Published.text(concept, "code"));
                    }
                }
            }
        });
        assertThat(unknown).isEmpty();
    }

    @Test
    void everyAddressThatAProfileNamesIsPublished() {
        Set<String> known = Published.resources("package")
                .map(it -> Published.text(it, "url"))
                .collect(Collectors.toSet());
        Set<String> named = new TreeSet<>();
        Published.all("StructureDefinition").forEach(profile -> {
            JsonNode elements = profile.path("differential");
            named.addAll(elements.findValuesAsText("valueSet"));
            elements.findValues("targetProfile").forEach(it -> it.forEach(url -> named.add(url.asText())));
            elements.findValues("profile").forEach(it -> it.forEach(url -> named.add(url.asText())));
            named.addAll(elements.findValuesAsText("system"));
        });
        assertThat(named.stream().filter(url -> url.startsWith(Published.BASE)))
                .isNotEmpty()
                .allMatch(known::contains);
    }
}
