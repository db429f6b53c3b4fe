package example.tamponade.fhir.conformance.mutants;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;

/**
 * A value in a JSON resource.
 *
 * @param path its properties from the root, array indexes included
 * @param parent the object or array that it stands in
 * @param name its property; empty in an array
 * @param index its index in an array
 */
record Place(String path, JsonNode parent, String name, int index) {

    /** Every value of the resource, the type and the root left out. */
    static List<Place> all(JsonNode root) {
        List<Place> places = new ArrayList<>();
        collect("", root, places);
        return places;
    }

    private static void collect(String path, JsonNode node, List<Place> places) {
        if (node instanceof ObjectNode object) {
            object.properties().forEach(it -> {
                if (!it.getKey().equals("resourceType")) {
                    add(new Place(path + "." + it.getKey(), object, it.getKey(), -1), places);
                }
            });
        } else if (node instanceof ArrayNode array) {
            for (int i = 0; i < array.size(); i++) {
                add(new Place(path + "[" + i + "]", array, "", i), places);
            }
        }
    }

    private static void add(Place place, List<Place> places) {
        places.add(place);
        collect(place.path(), place.value(), places);
    }

    JsonNode value() {
        return index < 0 ? parent.get(name) : parent.get(index);
    }

    /** The name of the property, of an item that of its array. */
    String property() {
        String end = path.substring(path.lastIndexOf('.') + 1);
        return end.replaceAll("\\[\\d+]", "");
    }

    boolean isText() {
        return value().isTextual();
    }

    boolean isObject() {
        return value().isObject();
    }

    void set(JsonNode value) {
        if (parent instanceof ObjectNode object) {
            object.set(name, value);
        } else {
            ((ArrayNode) parent).set(index, value);
        }
    }

    void set(String value) {
        set(parent instanceof ObjectNode object ? object.textNode(value) : ((ArrayNode) parent).textNode(value));
    }

    void remove() {
        if (parent instanceof ObjectNode object) {
            object.remove(name);
        } else {
            ((ArrayNode) parent).remove(index);
        }
    }

    /** The path without indexes: what the same kind of place has in common. */
    String pattern() {
        return path.replaceAll("\\[\\d+]", "");
    }
}
