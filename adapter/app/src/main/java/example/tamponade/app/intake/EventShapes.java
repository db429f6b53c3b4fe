package example.tamponade.app.intake;

import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Has an event the shape that the published schema gives to its type?
 *
 * <p>The schema has a branch for each type, and a validator that knows no better tries them all for every event, which takes
 * longer than everything else that intake does. Of each type there is a schema here with its own branch alone: for events
 * of that type it says the same. Safe for use by several threads.
 */
final class EventShapes {

    private static final String BRANCHES = "allOf";

    private final JsonNode schema;
    private final Map<String, SchemaReasons> byType = new ConcurrentHashMap<>();

    /** Of that schema of events. */
    EventShapes(JsonNode schema) {
        this.schema = schema;
    }

    /** Every reason against the shape, ordered by place; empty when the event has the right one. */
    List<Reason> reasons(JsonNode event) {
        // Types that nobody knows share a schema, however many a sender makes up.
        String type = EventSchema.data(event.path("type").asString("")).isMissingNode()
                ? ""
                : event.path("type").asString("");
        return byType.computeIfAbsent(type, it -> new SchemaReasons(only(it))).of(event);
    }

    private JsonNode only(String type) {
        ObjectNode only = (ObjectNode) schema.deepCopy();
        ArrayNode branches = (ArrayNode) only.path(BRANCHES);
        branches.removeIf(it -> !type.equals(it.at("/if/properties/type/const").asString("")));
        if (branches.isEmpty()) {
            only.remove(BRANCHES);
        }
        return only;
    }
}
