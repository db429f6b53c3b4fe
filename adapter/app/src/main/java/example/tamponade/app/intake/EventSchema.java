package example.tamponade.app.intake;

import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;

/** Looks up in the published schema what a property of an event is. */
final class EventSchema {

    /** The schema. */
    static final JsonNode ROOT = EventJson.parse(EventReader.schemaText());

    private static final String REFERENCE = "#/$defs/";

    private EventSchema() {}

    /**
     * A name on the way to a property.
     *
     * @param name the name
     * @param schema what stands there, of a list each element; a missing node when the schema has nothing of that name
     * @param list whether it is a list
     */
    record Step(String name, JsonNode schema, boolean list) {}

    /**
     * The way to a property.
     *
     * @param type the type of the event, on which the shape of its data depends
     * @param path a JSON pointer without array indexes
     */
    static List<Step> steps(String type, String path) {
        List<Step> steps = new ArrayList<>();
        JsonNode object = ROOT;
        for (String name : path.substring(1).split("/", -1)) {
            boolean data = steps.isEmpty() && name.equals("data");
            JsonNode schema = data ? data(type) : property(object, name);
            boolean list = isList(schema);
            object = list ? items(schema) : schema;
            steps.add(new Step(name, object, list));
        }
        return steps;
    }

    /** The shape of the data of that type of event; a missing node when there is no such type. */
    static JsonNode data(String type) {
        return ROOT.path("$defs").path(type);
    }

    /** The schema of an object's property; a missing node when it has none of that name. */
    static JsonNode property(JsonNode object, String name) {
        return resolve(object.path("properties").path(name));
    }

    static boolean isList(JsonNode schema) {
        return schema.path("type").asString("").equals("array");
    }

    static JsonNode items(JsonNode list) {
        return resolve(list.path("items"));
    }

    static ValueKind kind(JsonNode schema) {
        JsonNode type = schema.path("type");
        if (type.isArray()) {
            return ValueKind.AMOUNT;
        }
        return switch (type.asString("")) {
            case "number", "integer" -> ValueKind.NUMBER;
            case "boolean" -> ValueKind.YES_OR_NO;
            default -> textKind(schema.path("format").asString(""));
        };
    }

    private static ValueKind textKind(String format) {
        return switch (format) {
            case "date-time" -> ValueKind.TIME;
            case "date" -> ValueKind.DATE;
            default -> ValueKind.TEXT;
        };
    }

    // A property refers to its definition directly or, beside a description of its own, through $ref.
    private static JsonNode resolve(JsonNode property) {
        String reference = property.path("$ref").asString("");
        return reference.startsWith(REFERENCE) ? resolve(data(reference.substring(REFERENCE.length()))) : property;
    }
}
