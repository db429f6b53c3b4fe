package example.tamponade.app.intake;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Samples;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

class EventShapesTest {

    private static final JsonMapper MAPPER = JsonMapper.shared();
    private static final SchemaReasons WHOLE_SCHEMA = new SchemaReasons(EventSchema.ROOT);
    private static final EventShapes SHAPES = new EventShapes(EventSchema.ROOT);

    // The published schema, whole and as it is, is the reference.
    @ParameterizedTest
    @MethodSource("types")
    void saysOfEachTypeWhatTheWholeSchemaSays(String type) {
        List<JsonNode> spoilt = spoilt(events().get(type));

        assertThat(spoilt).hasSizeGreaterThan(60);
        assertThat(spoilt).allSatisfy(it -> assertThat(SHAPES.reasons(it)).isEqualTo(WHOLE_SCHEMA.of(it)));
        assertThat(spoilt).anySatisfy(it -> assertThat(SHAPES.reasons(it)).isNotEmpty());
    }

    static Stream<String> types() {
        assertThat(events()).hasSize(EventSchema.ROOT.path("allOf").size());
        return events().keySet().stream();
    }

    private static Map<String, JsonNode> events() {
        Map<String, JsonNode> events = new TreeMap<>();
        Samples.CASES.stream()
                .flatMap(it -> new String(Samples.events(it), UTF_8).lines())
                .filter(it -> it.startsWith("{") && it.endsWith("}}"))
                .map(MAPPER::readTree)
                .filter(it -> WHOLE_SCHEMA.of(it).isEmpty() && it.has("type"))
                .forEach(it -> events.putIfAbsent(it.path("type").asString(), it));
        return events;
    }

    private static List<JsonNode> spoilt(JsonNode event) {
        List<JsonNode> all =
                new ArrayList<>(List.of(event, MAPPER.createArrayNode().add(event)));
        spoilt("", event, event, all);
        spoilt("/data", event.path("data"), event, all);
        for (JsonNode type : EventSchema.ROOT.at("/properties/type/enum")) {
            all.add(with(event, "", "type", type));
        }
        all.add(with(event, "", "type", MAPPER.getNodeFactory().stringNode("amount")));
        return all;
    }

    private static void spoilt(String at, JsonNode object, JsonNode event, List<JsonNode> all) {
        List<String> names = new ArrayList<>(object.propertyNames());
        names.add("retracts");
        names.add("colour");
        for (String name : names) {
            all.add(with(event, at, name, null));
            for (String value : List.of("\"x\"", "-1", "[]", "{}")) {
                all.add(with(event, at, name, MAPPER.readTree(value)));
            }
        }
    }

    private static JsonNode with(JsonNode event, String at, String name, JsonNode value) {
        ObjectNode copy = (ObjectNode) event.deepCopy();
        ObjectNode object = (ObjectNode) copy.at(at);
        if (value == null) {
            object.remove(name);
        } else {
            object.set(name, value);
        }
        return copy;
    }
}
