package example.tamponade.conformance.check;

import example.tamponade.conformance.rules.Definition;
import example.tamponade.conformance.rules.Profiles;
import example.tamponade.conformance.rules.Property;
import example.tamponade.conformance.rules.Rules;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** Makes typed elements of JSON by the base definitions, and finds what no profile needs to be asked about. */
final class TreeReader {

    private final Profiles profiles;
    private final Findings findings;

    TreeReader(Profiles profiles, Findings findings) {
        this.profiles = profiles;
        this.findings = findings;
    }

    /** A resource by itself, or that in an element of another; null when it is none. */
    @Nullable
    Element resource(JsonNode json, String name, @Nullable Element parent, int index) {
        String type = json.path("resourceType").asString("");
        Definition definition = profiles.type(type);
        Element at = new Element(name, type.isEmpty() ? "Resource" : type, parent, false, index, true);
        if (definition == null || definition.profile() || definition.primitive()) {
            Element place = parent == null ? at : parent;
            findings.error(place, "no rules for the resource type '" + type + "'; check it with the stock validator");
            return null;
        }
        if (parent != null) {
            parent.add(at);
        }
        fill(at, json, definition.root(), definition);
        return at;
    }

    private void fill(Element element, JsonNode json, Rules rules, Definition definition) {
        if (json.isEmpty()) {
            findings.error(element, "Object must have some content");
        }
        for (Map.Entry<String, JsonNode> entry : json.properties()) {
            String name = entry.getKey();
            boolean about = name.startsWith("_");
            if (name.equals("resourceType") && element.isResource()) {
                continue;
            }
            Property property = rules.property(about ? name.substring(1) : name);
            if (property == null || (about && !property.isPrimitive())) {
                findings.error(element, "Unrecognized property '" + name + "'");
            } else if (!about) {
                read(element, property, entry.getValue(), json.get("_" + name), definition, name);
            } else if (!json.has(name.substring(1))) {
                read(element, property, null, entry.getValue(), definition, name);
            }
        }
    }

    private void read(
            Element parent,
            Property property,
            @Nullable JsonNode value,
            @Nullable JsonNode about,
            Definition definition,
            String name) {
        if (!property.rules().head().list()) {
            single(parent, property, value, about, definition, -1, name);
            return;
        }
        JsonNode list = value == null ? about : value;
        if (list == null || !list.isArray() || (about != null && !about.isArray())) {
            findings.error(parent, "." + property.rules().head().name(), "The property " + name + " must be an Array");
            return;
        }
        if (list.isEmpty()) {
            findings.error(
                    parent,
                    "." + property.rules().head().name(),
                    "Array cannot be empty - the property should not be present if it has no values");
        }
        int length = Math.max(list.size(), about == null ? 0 : about.size());
        for (int i = 0; i < length; i++) {
            single(parent, property, at(value, i), at(about, i), definition, i, name);
        }
    }

    private static @Nullable JsonNode at(@Nullable JsonNode list, int index) {
        if (list == null) {
            return null;
        }
        JsonNode item = list.get(index);
        return item == null || (item.isNull() && list.size() > 1) ? null : item;
    }

    private void single(
            Element parent,
            Property property,
            @Nullable JsonNode value,
            @Nullable JsonNode about,
            Definition definition,
            int index,
            String name) {
        Rules.Head head = property.rules().head();
        if (property.isPrimitive()) {
            primitive(parent, property, value, about, index, name);
        } else if (value == null || !value.isObject()) {
            findings.error(parent, place(head, index), "The property " + name + " must be an Object");
        } else if (property.type().equals("Resource")) {
            resource(value, head.name(), parent, index);
        } else {
            Element element = new Element(head.name(), property.type(), parent, head.choice(), index, false);
            parent.add(element);
            content(element, property.rules(), value, definition);
        }
    }

    private void content(Element element, Rules rules, JsonNode value, Definition definition) {
        if (rules.like() != null) {
            fill(element, value, profiles.named(definition.url(), rules.like()), definition);
        } else if (rules.children().length > 0) {
            fill(element, value, rules, definition);
        } else {
            Definition type = profiles.type(element.type());
            if (type != null) {
                fill(element, value, type.root(), type);
            }
        }
    }

    private void primitive(
            Element parent,
            Property property,
            @Nullable JsonNode value,
            @Nullable JsonNode about,
            int index,
            String name) {
        Rules.Head head = property.rules().head();
        if (value != null && (value.isContainer() || value.isNull())) {
            findings.error(parent, place(head, index), "This property must be a simple value (" + name + ")");
            return;
        }
        Element element = new Element(head.name(), property.type(), parent, head.choice(), index, false);
        parent.add(element);
        if (value != null) {
            String text = value.asString();
            element.text(text);
            kind(element, property.type(), value);
            String error = Primitives.error(property.type(), text);
            if (error != null) {
                findings.error(element, error);
            }
            String oddity = property.type().equals("xhtml") || text.isEmpty() ? null : Primitives.oddity(text);
            if (oddity != null) {
                findings.warning(element, oddity);
            }
        }
        Definition type = profiles.type(property.type());
        if (about != null && type != null) {
            if (about.isObject()) {
                fill(element, about, type.root(), type);
            } else {
                findings.error(element, "The property _" + name + " must be an Object");
            }
        }
    }

    private void kind(Element element, String type, JsonNode value) {
        String wanted = type.equals("boolean") ? "boolean" : element.isNumber() ? "number" : "string";
        boolean right = switch (wanted) {
            case "boolean" -> value.isBoolean();
            case "number" -> value.isNumber();
            default -> value.isString();
        };
        if (!right) {
            findings.error(element, "Error parsing JSON: the primitive value must be a " + wanted);
        }
    }

    private static String place(Rules.Head head, int index) {
        return "." + head.name() + (head.choice() ? "[x]" : "") + (index < 0 ? "" : "[" + index + "]");
    }
}
