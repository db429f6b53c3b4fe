package example.tamponade.app.keys;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.TreeMap;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.cfg.JsonNodeFeature;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * FHIR's canonical JSON, which is the same however a resource was written: no white space between tokens, properties by
 * name. Numbers keep their digits. FHIR R4, <a href="http://hl7.org/fhir/R4/json.html#canonical">Canonical JSON</a>.
 */
final class CanonicalJson {

    private static final JsonMapper JSON = JsonMapper.builder()
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .disable(JsonNodeFeature.STRIP_TRAILING_BIGDECIMAL_ZEROES)
            .build();

    private CanonicalJson() {}

    /** The bytes of a resource in that form. */
    static byte[] of(String json) {
        return JSON.writeValueAsString(ordered(JSON.readTree(json))).getBytes(StandardCharsets.UTF_8);
    }

    private static JsonNode ordered(JsonNode node) {
        if (node instanceof ObjectNode object) {
            Map<String, JsonNode> byName = new TreeMap<>();
            object.properties().forEach(it -> byName.put(it.getKey(), ordered(it.getValue())));
            ObjectNode ordered = JSON.createObjectNode();
            byName.forEach(ordered::set);
            return ordered;
        }
        if (node instanceof ArrayNode array) {
            ArrayNode ordered = JSON.createArrayNode();
            array.forEach(it -> ordered.add(ordered(it)));
            return ordered;
        }
        return node;
    }
}
