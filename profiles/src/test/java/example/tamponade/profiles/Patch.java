package example.tamponade.profiles;

import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** Applies a JSON Patch (RFC 6902), of which the negative examples need add, remove and replace. */
final class Patch {

    private Patch() {}

    /** The resource with the operations applied; the resource itself stays as it is. */
    static ObjectNode apply(ObjectNode resource, JsonNode operations) {
        ObjectNode changed = resource.deepCopy();
        operations.forEach(operation -> change(changed, operation));
        return changed;
    }

    private static void change(ObjectNode changed, JsonNode operation) {
        JsonPointer path = JsonPointer.compile(operation.required("path").asText());
        String op = operation.required("op").asText();
        if (!op.equals("add") && changed.at(path).isMissingNode()) {
            throw new AssertionError("nothing to " + op + " at " + path);
        }
        JsonNode parent = changed.at(path.head());
        String last = path.last().getMatchingProperty();
        if (parent instanceof ArrayNode list) {
            change(list, op, last.equals("-") ? list.size() : path.last().getMatchingIndex(), operation);
        } else if (op.equals("remove")) {
            ((ObjectNode) parent).remove(last);
        } else {
            ((ObjectNode) parent).set(last, operation.required("value"));
        }
    }

    private static void change(ArrayNode list, String op, int index, JsonNode operation) {
        switch (op) {
            case "add" -> list.insert(index, operation.required("value"));
            case "remove" -> list.remove(index);
            case "replace" -> list.set(index, operation.required("value"));
            default -> throw new AssertionError("no such operation: " + op);
        }
    }
}
