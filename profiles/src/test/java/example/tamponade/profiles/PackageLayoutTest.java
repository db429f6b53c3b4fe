package example.tamponade.profiles;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The layout that the FHIR NPM package specification asks for. */
class PackageLayoutTest {

    private final ObjectNode manifest = Published.files().get("package/package.json");

    @Test
    void namesItselfItsFhirVersionAndWhatItDependsOn() {
        assertThat(Published.text(manifest, "name")).isEqualTo("example.tamponade.records");
        assertThat(Published.text(manifest, "version")).matches("\\d+[.]\\d+[.]\\d+.*");
        assertThat(Published.text(manifest, "canonical")).isEqualTo(Published.BASE);
        assertThat(Published.text(manifest, "type")).isEqualTo("IG");
        assertThat(Published.text(manifest, "license")).isEqualTo("Apache-2.0");
        assertThat(manifest.at("/fhirVersions")).hasSize(1);
        assertThat(manifest.at("/fhirVersions/0").asText()).isEqualTo("4.0.1");
        assertThat(manifest.at("/dependencies/hl7.fhir.r4.core").asText()).isEqualTo("4.0.1");
    }

    @Test
    void holdsNothingButManifestIndexesResourcesAndExamples() {
        assertThat(Published.files().keySet())
                .allMatch(path -> path.matches("package/(package[.]json|([.]index|[A-Z][A-Za-z]+-[A-Za-z0-9.-]+)[.]json"
                        + "|example/([.]index|[A-Z][A-Za-z]+-[A-Za-z0-9.-]+)[.]json)"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"package", "package/example"})
    void indexesEveryResourceAsItIs(String folder) {
        ObjectNode index = Published.files().get(folder + "/.index.json");
        assertThat(index.path("index-version").asInt()).isEqualTo(2);
        List<String> indexed = index.path("files").findValuesAsText("filename");
        assertThat(indexed).doesNotHaveDuplicates().hasSize((int)
                Published.resources(folder).count());
        for (JsonNode line : index.path("files")) {
            ObjectNode resource = Published.files().get(folder + "/" + Published.text(line, "filename"));
            for (String field : List.of("resourceType", "id", "url", "version", "kind", "type")) {
                boolean text = resource.path(field).isTextual();
                assertThat(line.path(field)).as(field).isEqualTo(text ? resource.get(field) : line.path("none"));
            }
        }
    }

    @Test
    void theTermsBesideItAreThoseInIt() throws IOException {
        JsonNode terms = new ObjectMapper().readTree(RecordPackage.class.getResource(RecordPackage.TERMS));
        assertThat(Published.text(terms, "canonical")).isEqualTo(Published.BASE);
        assertThat(Published.text(terms, "version")).isEqualTo(Published.text(manifest, "version"));
        assertThat(terms.path("resources"))
                .containsExactlyInAnyOrderElementsOf(
                        Stream.of("CodeSystem", "ValueSet", "ConceptMap", "Questionnaire", "SearchParameter", "Measure")
                                .flatMap(Published::all)
                                .toList());
        Map<String, String> types = new TreeMap<>();
        terms.path("profiles")
                .fields()
                .forEachRemaining(it -> types.put(it.getKey(), it.getValue().asText()));
        assertThat(types)
                .isEqualTo(Published.profiles()
                        .collect(Collectors.toMap(it -> Published.text(it, "url"), it -> Published.text(it, "type"))));
    }

    @Test
    void theGuideListsEverything() {
        ObjectNode guide = Published.all("ImplementationGuide").findFirst().orElseThrow();
        assertThat(Published.text(guide, "url")).endsWith("/ImplementationGuide/example.tamponade.records");
        assertThat(Published.text(guide, "packageId")).isEqualTo(Published.text(manifest, "name"));
        assertThat(Published.text(guide, "version")).isEqualTo(Published.text(manifest, "version"));
        List<String> held = Published.files().keySet().stream()
                .filter(path -> path.matches(".*/[A-Z][^/]*") && !path.contains("ImplementationGuide"))
                .map(path -> path.replaceAll(".*/([A-Za-z]+)-(.*)[.]json", "$1/$2"))
                .toList();
        List<String> listed = new ArrayList<>();
        guide.at("/definition/resource")
                .forEach(line -> listed.add(line.at("/reference/reference").asText()));
        assertThat(listed).containsExactlyInAnyOrderElementsOf(held);
        TreeMap<String, Long> groups = guide.at("/definition/resource").findValuesAsText("groupingId").stream()
                .collect(Collectors.groupingBy(it -> it, TreeMap::new, Collectors.counting()));
        assertThat(guide.at("/definition/grouping").findValuesAsText("id"))
                .containsExactlyInAnyOrderElementsOf(groups.keySet());
    }
}
