package example.tamponade.fhir.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import example.tamponade.fhir.InventedCase;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.PackageFiles;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.ElementDefinition;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.StructureDefinition;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** One thing wrong in a resource of every profile, or in an example of the package: the check must fail. */
class MutationTest {

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Map<String, ObjectNode> ONE_OF_EACH = oneOfEach();

    static Stream<String> profiles() {
        return ONE_OF_EACH.keySet().stream();
    }

    @ParameterizedTest
    @MethodSource("profiles")
    void aCodeThatDoesNotExistFails(String profile) {
        mutate(profile, "coding", (coding, name) -> coding.put("code", "no-such-code"));
    }

    @ParameterizedTest
    @MethodSource("profiles")
    void anotherUnitFails(String profile) {
        mutate(
                profile,
                "quantity",
                (quantity, name) -> quantity.put("code", "furlong").put("unit", "furlong"));
        mutate(
                profile,
                "quantity",
                (quantity, name) -> quantity.put("code", "K").put("unit", "K"));
    }

    @ParameterizedTest
    @MethodSource("profiles")
    void whatTheProfileAsksForMayNotBeMissing(String profile) {
        for (String element : required(profileOf(ONE_OF_EACH.get(profile)))) {
            ObjectNode mutant = ONE_OF_EACH.get(profile).deepCopy();
            List<String> present = new ArrayList<>();
            mutant.fieldNames().forEachRemaining(present::add);
            present.removeIf(it -> !it.equals(element) && !it.startsWith(element + "["));
            String stem = element.replace("[x]", "");
            mutant.fieldNames().forEachRemaining(it -> {
                if (element.endsWith("[x]") && it.startsWith(stem)) {
                    present.add(it);
                }
            });
            assertThat(present).as(profile + " has " + element).isNotEmpty();
            mutant.remove(present);
            assertThat(fails(mutant)).as(profile + " without " + element).isTrue();
        }
    }

    @ParameterizedTest
    @MethodSource("profiles")
    void anExtensionOfOursThatDoesNotExistFails(String profile) {
        mutate(
                profile,
                "extension",
                (extension, name) ->
                        extension.put("url", unknownOfOurs(extension.get("url").asText())));
    }

    // Where a profile uses another's extension, one of ours that does not exist is put in its place.
    private static String unknownOfOurs(String url) {
        String ours = "https://tamponade-adapter.example/fhir/StructureDefinition/";
        return url.startsWith("http") && !url.startsWith(ours) ? ours + "nowhere" : url + "x";
    }

    private interface Mutation {
        void apply(ObjectNode node, String name);
    }

    private static void mutate(String profile, String kind, Mutation mutation) {
        int places = places(ONE_OF_EACH.get(profile), kind).size();
        for (int i = 0; i < places; i++) {
            ObjectNode mutant = ONE_OF_EACH.get(profile).deepCopy();
            Place place = places(mutant, kind).get(i);
            mutation.apply(place.node(), place.path());
            assertThat(fails(mutant)).as(profile + " " + place.path()).isTrue();
        }
    }

    private record Place(String path, ObjectNode node) {}

    // Everything in the resource that looks like that kind of element, the tags of the metadata included.
    private static List<Place> places(JsonNode node, String kind) {
        List<Place> places = new ArrayList<>();
        collect("", node, kind, places);
        return places;
    }

    private static void collect(String path, JsonNode node, String kind, List<Place> places) {
        if (node instanceof ObjectNode object && is(object, kind) && !path.isEmpty()) {
            places.add(new Place(path, object));
        }
        if (kind.equals("coding") && isBesideOurs(node)) {
            // Beside our code any other may stand, so that one that does not exist is not told from a site's.
            collect(path, node.get(node.size() - 1), kind, places);
            return;
        }
        if (node.isObject()) {
            node.properties().forEach(it -> collect(path + "." + it.getKey(), it.getValue(), kind, places));
        }
        for (int i = 0; node.isArray() && i < node.size(); i++) {
            collect(path + "[" + i + "]", node.get(i), kind, places);
        }
    }

    private static boolean isBesideOurs(JsonNode node) {
        return node.isArray() && node.size() == 2 && !isOurs(node.get(0)) && isOurs(node.get(1));
    }

    private static boolean isOurs(JsonNode coding) {
        return coding.path("system").asText().startsWith("https://tamponade-adapter.example/fhir/CodeSystem/");
    }

    private static boolean is(ObjectNode node, String kind) {
        return switch (kind) {
            case "quantity" -> node.has("value") && node.has("code") && node.has("system");
            case "coding" -> node.has("code") && node.has("system") && !node.has("value");
            default -> node.has("url") && node.size() > 1;
        };
    }

    private static List<String> required(String profile) {
        StructureDefinition definition = PackageFiles.profile(profile);
        return definition.getSnapshot().getElement().stream()
                .filter(it -> it.getMin() > 0 && !it.hasSliceName())
                .map(ElementDefinition::getPath)
                .filter(it -> it.chars().filter(c -> c == '.').count() == 1)
                .map(it -> it.substring(it.indexOf('.') + 1))
                .filter(it -> !it.equals("meta"))
                .toList();
    }

    private static boolean fails(ObjectNode mutant) {
        return !Conformance.compiled().check(mutant.toString()).passed();
    }

    private static Map<String, ObjectNode> oneOfEach() {
        List<Resource> resources = new ArrayList<>(Mapped.ofInventedCase().all());
        resources.addAll(Mapped.ofFacility(InventedCase.facilityEvents()).all());
        Map<String, ObjectNode> each = new TreeMap<>();
        resources.forEach(it -> each.putIfAbsent(Mapped.profileOf(it), read(Mapped.json(it))));
        PackageFiles.examples().stream()
                .map(MutationTest::read)
                .filter(it -> !it.path("resourceType").asText().equals("Bundle"))
                .forEach(it -> each.put("example " + it.path("id").asText(), it));
        return each;
    }

    private static String profileOf(ObjectNode resource) {
        String profile = resource.at("/meta/profile/0").asText();
        return profile.substring(profile.lastIndexOf('/') + 1);
    }

    private static ObjectNode read(String json) {
        try {
            return (ObjectNode) JSON.readTree(json);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
