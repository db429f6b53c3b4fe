package example.tamponade.terminology;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.CodeSystem;
import org.hl7.fhir.r4.model.CodeSystem.CodeSystemContentMode;
import org.hl7.fhir.r4.model.CodeSystem.ConceptDefinitionComponent;
import org.hl7.fhir.r4.model.ConceptMap;
import org.hl7.fhir.r4.model.Enumerations.ConceptMapEquivalence;
import org.hl7.fhir.r4.model.MetadataResource;
import org.hl7.fhir.r4.model.ValueSet;
import org.junit.jupiter.api.Test;

class TerminologyTest {

    private final Map<String, Map<String, String>> displays =
            Terminology.codeSystems().stream().collect(Collectors.toMap(CodeSystem::getUrl, TerminologyTest::displays));

    private static Map<String, String> displays(CodeSystem system) {
        return system.getConcept().stream()
                .collect(Collectors.toMap(
                        ConceptDefinitionComponent::getCode, ConceptDefinitionComponent::getDisplay, (a, b) -> {
                            throw new AssertionError(system.getId() + " has a code twice: " + a + ", " + b);
                        }));
    }

    @Test
    void everyArtifactOfOursCarriesTheImprint() {
        assertThat(Terminology.all().filter(Terminology::ours)).allSatisfy(artifact -> {
            String type = artifact.fhirType();
            assertThat(artifact.getUrl())
                    .isEqualTo(Terminology.BASE + "/" + type + "/"
                            + artifact.getIdElement().getIdPart());
            assertThat(artifact.getVersion()).matches("\\d+[.]\\d+[.]\\d+.*");
            assertThat(artifact.getName()).matches("[A-Z][A-Za-z0-9]+");
            assertThat(artifact.getStatus().toCode()).isEqualTo("active");
            assertThat(artifact.getPublisher()).isNotBlank();
            assertThat(artifact.getDateElement().getValueAsString()).matches("\\d{4}-\\d{2}-\\d{2}");
        });
    }

    @Test
    void noAddressIsUsedTwice() {
        assertThat(Terminology.all().map(MetadataResource::getUrl)).doesNotHaveDuplicates();
    }

    @Test
    void everyCodeSaysWhatItMeansAndWhereItComesFrom() {
        for (CodeSystem system : Terminology.codeSystems()) {
            String origin = Terminology.ours(system) ? "Source: " : "Defined by ";
            assertThat(system.getConcept()).as(system.getId()).isNotEmpty().allSatisfy(concept -> {
                assertThat(concept.getDisplay()).as(concept.getCode()).isNotBlank();
                assertThat(concept.getDefinition())
                        .as(concept.getCode())
                        .contains(origin)
                        .endsWith(".");
            });
        }
    }

    @Test
    void partsOfExternalSystemsAreFragmentsWithTheirOwnersNotice() {
        assertThat(Terminology.codeSystems().stream().filter(it -> !Terminology.ours(it)))
                .extracting(CodeSystem::getUrl)
                .containsExactlyInAnyOrder(
                        "http://loinc.org",
                        "http://snomed.info/sct",
                        "http://hl7.org/fhir/sid/icd-10",
                        "http://www.whocc.no/atc");
        assertThat(Terminology.codeSystems().stream().filter(it -> !Terminology.ours(it)))
                .allSatisfy(system -> {
                    assertThat(system.getContent()).isEqualTo(CodeSystemContentMode.FRAGMENT);
                    assertThat(system.getVersion()).isNull();
                    assertThat(system.getPublisher()).doesNotContain("Tamponade");
                    assertThat(system.getCopyright())
                            .containsAnyOf("copyright", "All rights reserved")
                            .doesNotContain("Apache");
                });
    }

    @Test
    void everyCodeSystemOfOursHasTheValueSetOfAllItsCodes() {
        Set<String> valueSets =
                Terminology.valueSets().stream().map(ValueSet::getUrl).collect(Collectors.toSet());
        assertThat(Terminology.codeSystems().stream()
                        .filter(it -> it.getContent() == CodeSystemContentMode.COMPLETE)
                        .map(it -> it.getUrl().replace("/CodeSystem/", "/ValueSet/")))
                .allMatch(valueSets::contains);
    }

    @Test
    void valueSetsNameOnlyCodesThatExist() {
        for (ValueSet valueSet : Terminology.valueSets()) {
            for (ValueSet.ConceptSetComponent include : valueSet.getCompose().getInclude()) {
                Map<String, String> known = displays.get(include.getSystem());
                if (include.getSystem().startsWith(Terminology.BASE)) {
                    assertThat(known).as(include.getSystem()).isNotNull();
                }
                if (known != null) {
                    assertThat(include.getConcept().stream().map(ValueSet.ConceptReferenceComponent::getCode))
                            .as(valueSet.getId())
                            .allMatch(known::containsKey);
                }
            }
        }
    }

    @Test
    void conceptMapsNameOnlyCodesThatExistByTheNameTheyHave() {
        for (ConceptMap map : Terminology.conceptMaps()) {
            for (ConceptMap.ConceptMapGroupComponent group : map.getGroup()) {
                for (ConceptMap.SourceElementComponent element : group.getElement()) {
                    assertThat(displays.get(group.getSource())).containsEntry(element.getCode(), element.getDisplay());
                    for (ConceptMap.TargetElementComponent target : element.getTarget()) {
                        if (target.hasCode()) {
                            assertThat(displays.get(group.getTarget()))
                                    .containsEntry(target.getCode(), target.getDisplay());
                        }
                    }
                }
            }
        }
    }

    @Test
    void whatIsNotTheSameSaysWhy() {
        Set<ConceptMapEquivalence> same = EnumSet.of(ConceptMapEquivalence.EQUAL, ConceptMapEquivalence.EQUIVALENT);
        assertThat(Terminology.conceptMaps().stream()
                        .flatMap(map -> map.getGroup().stream())
                        .flatMap(group -> group.getElement().stream())
                        .flatMap(element -> element.getTarget().stream())
                        .filter(target -> !same.contains(target.getEquivalence())))
                .isNotEmpty()
                .allSatisfy(target -> {
                    assertThat(target.getComment()).endsWith(".");
                    assertThat(target.hasCode()).isEqualTo(target.getEquivalence() != ConceptMapEquivalence.UNMATCHED);
                });
    }

    @Test
    void conceptMapsLeaveNoCodeOfTheirValueSetOut() {
        Map<String, Set<String>> codes = new TreeMap<>();
        Terminology.valueSets().forEach(it -> codes.put(it.getUrl(), codes(it)));
        for (ConceptMap map : Terminology.conceptMaps()) {
            List<String> mapped = map.getGroup().stream()
                    .flatMap(group -> group.getElement().stream())
                    .map(ConceptMap.SourceElementComponent::getCode)
                    .toList();
            assertThat(mapped)
                    .as(map.getId())
                    .containsExactlyInAnyOrderElementsOf(
                            codes.get(map.getSourceCanonicalType().getValue()));
        }
    }

    private Set<String> codes(ValueSet valueSet) {
        Set<String> codes = new HashSet<>();
        for (ValueSet.ConceptSetComponent include : valueSet.getCompose().getInclude()) {
            include.getConcept().forEach(it -> codes.add(it.getCode()));
            if (!include.hasConcept()) {
                codes.addAll(displays.get(include.getSystem()).keySet());
            }
        }
        return codes;
    }

    @Test
    void eachDerivedFactHasItsMethodAndTheBloodVolumeThree() {
        Set<String> codes = new HashSet<>(
                displays.get(Terminology.BASE + "/CodeSystem/derived-fact").keySet());
        codes.add("estimated-blood-volume-height-weight");
        codes.add("estimated-blood-volume-obesity");
        assertThat(displays.get(Terminology.BASE + "/CodeSystem/derivation-method")
                        .keySet())
                .isEqualTo(codes);
    }

    @Test
    void anArtifactWithoutTitleIsNotPublished() {
        ObjectNode untitled = new ObjectMapper().createObjectNode();
        untitled.put("resourceType", "ValueSet").put("id", "untitled").put("description", "No title.");
        Imprint imprint = Imprint.of("0.1.0", "2026-11-25T00:00:00Z");
        IllegalArgumentException refused = assertThrows(IllegalArgumentException.class, () -> imprint.stamp(untitled));
        assertThat(refused).hasMessageContaining("title");
    }
}
