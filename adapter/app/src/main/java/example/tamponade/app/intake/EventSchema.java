package example.tamponade.app.intake;

import tools.jackson.databind.JsonNode;

/** Looks up in the published schema what a property of an event is. */
final class EventSchema {

    /** The schema. */
    static final JsonNode ROOT = EventJson.parse(EventReader.schemaText());

    private static final String REFERENCE = "#/$defs/";

    private EventSchema() {}

    /** What a value is written as. */
    enum Kind {
        /** A number that may come with a unit. */
        AMOUNT,
        NUMBER,
        YES_OR_NO,
        TEXT
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

    static Kind kind(JsonNode schema) {
        JsonNode type = schema.path("type");
        if (type.isArray()) {
            return Kind.AMOUNT;
        }
        return switch (type.asString("")) {
            case "number", "integer" -> Kind.NUMBER;
            case "boolean" -> Kind.YES_OR_NO;
            default -> Kind.TEXT;
        };
    }

    // A property refers to its definition directly or, beside a description of its own, through $ref.
    private static JsonNode resolve(JsonNode property) {
        String reference = property.path("$ref").asString("");
        return reference.startsWith(REFERENCE) ? resolve(data(reference.substring(REFERENCE.length()))) : property;
    }
}
