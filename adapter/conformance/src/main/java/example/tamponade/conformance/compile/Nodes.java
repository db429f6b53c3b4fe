package example.tamponade.conformance.compile;

import java.util.LinkedHashMap;
import java.util.Map;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** A list in which equal objects stand once: most elements of most profiles are those of the base. */
final class Nodes {

    static final JsonMapper JSON = JsonMapper.builder().build();

    private final Map<String, Integer> places = new LinkedHashMap<>();
    private final ArrayNode all = JSON.createArrayNode();

    /** The place of an object like this. */
    int place(ObjectNode node) {
        return places.computeIfAbsent(node.toString(), key -> {
            all.add(node);
            return all.size() - 1;
        });
    }

    ArrayNode all() {
        return all;
    }
}
