package example.tamponade.profiles.build;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * The elements of one differential. An element is written by its {@code id}; path and slice name follow from it. A binding
 * is required and a constraint is an error unless it says otherwise. What a profile names must be supported.
 */
final class Elements {

    private final String type;
    private final Map<String, ObjectNode> byId = new LinkedHashMap<>();

    Elements(String type) {
        this.type = type;
    }

    /** Later lines on the same element add to the earlier ones and win over them; constraints add up. */
    Elements add(JsonNode holder) {
        for (JsonNode element : holder.required("element")) {
            ObjectNode own = element.deepCopy();
            String id = own.required("id").asText().replace("{type}", type);
            byId.merge(id, own.put("id", id), Elements::merge);
        }
        return this;
    }

    private static ObjectNode merge(ObjectNode before, ObjectNode after) {
        ArrayNode constraints = Sources.JSON.createArrayNode();
        before.path("constraint").forEach(constraints::add);
        after.path("constraint").forEach(constraints::add);
        before.setAll(after);
        return constraints.isEmpty() ? before : before.set("constraint", constraints);
    }

    /** An extension has one address, and no inner extensions unless it names some. */
    void fixAddress(String url) {
        if (byId.keySet().stream().noneMatch(id -> id.startsWith("Extension.extension"))) {
            byId.put("Extension.extension", element("Extension.extension").put("max", "0"));
        }
        byId.put("Extension.url", element("Extension.url").put("fixedUri", url));
    }

    ArrayNode complete(ObjectNode profile) {
        ArrayNode complete = Sources.JSON.createArrayNode();
        byId.values().forEach(element -> complete.add(complete(element, profile)));
        return complete;
    }

    private static ObjectNode complete(ObjectNode element, ObjectNode profile) {
        String id = element.required("id").asText();
        ObjectNode complete = element(id).put("path", id.replaceAll(":[^.]+", ""));
        String last = id.substring(id.lastIndexOf('.') + 1);
        if (last.contains(":")) {
            complete.put("sliceName", last.substring(last.indexOf(':') + 1));
        }
        for (JsonNode constraint : element.path("constraint")) {
            ObjectNode own = (ObjectNode) constraint;
            own.put("severity", own.path("severity").asText("error"));
            own.set("source", profile.required("url"));
        }
        if (element.get("binding") instanceof ObjectNode binding) {
            binding.put("strength", binding.path("strength").asText("required"));
        }
        boolean named = id.contains(".") && !element.path("max").asText().equals("0");
        if (named && !profile.path("type").asText().equals("Extension")) {
            complete.put("mustSupport", true);
        }
        return complete.setAll(element);
    }

    private static ObjectNode element(String id) {
        return Sources.JSON.createObjectNode().put("id", id);
    }
}
