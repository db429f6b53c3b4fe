package example.tamponade.profiles;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Whatever kind of resource it is: a wrong code, a wrong unit and a missing required element are errors. */
class StrictnessTest {

    private static final String UCUM = "http://unitsofmeasure.org";

    static Stream<Arguments> examples() {
        return Published.examples()
                .filter(example -> !Published.text(example, "resourceType").equals("Bundle"))
                .map(example -> Arguments.of(Published.text(example, "id"), example));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("examples")
    void refusesAWrongCode(String id, ObjectNode example) {
        refusesEach(
                example,
                coding -> !Published.text(coding, "system").equals(UCUM),
                coding -> coding.put("code", "nonesuch"));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("examples")
    void refusesAUnitThatUcumDoesNotHave(String id, ObjectNode example) {
        refusesEach(
                example,
                quantity -> Published.text(quantity, "system").equals(UCUM),
                quantity -> quantity.put("code", "cubit"));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("examples")
    void refusesAUnitOfAnotherKind(String id, ObjectNode example) {
        refusesEach(
                example,
                quantity -> Published.text(quantity, "system").equals(UCUM),
                quantity -> quantity.put("code", "cd"));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("examples")
    void refusesAMissingElement(String id, ObjectNode example) {
        List<String> missed = new ArrayList<>();
        for (String element : required(example)) {
            ObjectNode changed = example.deepCopy();
            changed.remove(element);
            if (Published.errors(changed, Published.profileOf(example)).isEmpty()) {
                missed.add(element);
            }
        }
        assertThat(missed).as(Published.text(example, "id")).isEmpty();
    }

    private static List<String> required(ObjectNode example) {
        ObjectNode profile = Published.profiles()
                .filter(it -> Published.text(it, "id").equals(Published.profileOf(example)))
                .findFirst()
                .orElseThrow();
        List<String> required = new ArrayList<>();
        for (JsonNode element : profile.at("/snapshot/element")) {
            String id = Published.text(element, "id");
            String property = id.substring(id.indexOf('.') + 1).replace("[x]", "");
            if (id.matches("[A-Za-z]+[.][A-Za-z]+(\\[x])?")
                    && element.path("min").asInt() > 0) {
                example.fieldNames().forEachRemaining(field -> {
                    if (field.matches(property + (id.endsWith("[x]") ? ".*" : ""))) {
                        required.add(field);
                    }
                });
            }
        }
        return required;
    }

    /** Changes one coded node after the other and lists those whose change no error betrays. */
    private static void refusesEach(ObjectNode example, Predicate<ObjectNode> which, Consumer<ObjectNode> change) {
        ObjectNode copy = example.deepCopy();
        List<String> missed = new ArrayList<>();
        for (ObjectNode coded : coded(copy)) {
            if (which.test(coded)) {
                JsonNode right = coded.get("code");
                change.accept(coded);
                if (Published.errors(copy, Published.profileOf(example)).isEmpty()) {
                    missed.add(Published.text(coded, "system") + " " + right);
                }
                coded.set("code", right);
            }
        }
        assertThat(missed).as(Published.text(example, "id")).isEmpty();
    }

    private static List<ObjectNode> coded(JsonNode node) {
        List<ObjectNode> found = new ArrayList<>();
        if (node instanceof ObjectNode object && object.has("system") && object.has("code")) {
            found.add(object);
        }
        if (node instanceof ObjectNode || node instanceof ArrayNode) {
            for (Iterator<JsonNode> children = node.elements(); children.hasNext(); ) {
                found.addAll(coded(children.next()));
            }
        }
        return found;
    }
}
