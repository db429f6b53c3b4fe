package example.tamponade.conformance.check;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** Whether an element is, or contains, what a profile fixes. */
final class Patterns {

    private Patterns() {}

    /** Finds what differs from a value that an element must have. */
    static void check(Element element, JsonNode wanted, boolean whole, String profile, Findings findings) {
        if (!wanted.isObject()) {
            primitive(element, wanted, whole, profile, findings);
            return;
        }
        if (whole) {
            for (Element child : element.children()) {
                if (!wanted.has(child.name())) {
                    findings.error(child, "has no place beside the value fixed in " + profile);
                }
            }
        }
        for (Map.Entry<String, JsonNode> part : wanted.properties()) {
            part(element, part.getKey(), part.getValue(), whole, profile, findings);
        }
    }

    private static void primitive(Element element, JsonNode wanted, boolean whole, String profile, Findings findings) {
        if (element.text() == null || !same(element, wanted)) {
            findings.error(
                    element,
                    "Value is '" + element.text() + "' but is fixed to '" + wanted.asString() + "' in the profile "
                            + profile);
        }
        if (whole && element.child("extension") != null) {
            findings.error(
                    element, "No extensions allowed, as the specified fixed value doesn't contain any extensions");
        }
    }

    private static boolean same(Element element, JsonNode wanted) {
        String text = element.text();
        if (text == null) {
            return false;
        }
        return wanted.isNumber() ? number(text, wanted) : text.equals(wanted.asString());
    }

    private static boolean number(String text, JsonNode wanted) {
        try {
            return new BigDecimal(text).compareTo(wanted.decimalValue()) == 0;
        } catch (NumberFormatException e) {
            return false;
        }
    }

    private static void part(
            Element element, String name, JsonNode wanted, boolean whole, String profile, Findings findings) {
        List<Element> there = named(element, name);
        if (wanted.isArray()) {
            list(element, there, name, wanted, whole, profile, findings);
        } else if (there.isEmpty()) {
            findings.error(
                    element, "Missing element '" + name + "' - required by fixed value assigned in profile " + profile);
        } else {
            check(there.get(0), wanted, whole, profile, findings);
        }
    }

    private static void list(
            Element element,
            List<Element> there,
            String name,
            JsonNode wanted,
            boolean whole,
            String profile,
            Findings findings) {
        if (there.size() < wanted.size() || (whole && there.size() != wanted.size())) {
            findings.error(
                    element, "Expected " + wanted.size() + " but found " + there.size() + " " + name + " elements");
            return;
        }
        for (JsonNode item : wanted) {
            if (there.stream().noneMatch(it -> fits(it, item, whole))) {
                findings.error(element, "The pattern " + item + " defined in the profile " + profile + " not found");
            }
        }
    }

    private static boolean fits(Element element, JsonNode wanted, boolean whole) {
        Findings tried = new Findings();
        check(element, wanted, whole, "", tried);
        return !tried.failed();
    }

    private static List<Element> named(Element element, @Nullable String name) {
        List<Element> found = new ArrayList<>();
        for (Element child : element.children()) {
            if (child.name().equals(name)) {
                found.add(child);
            }
        }
        return found;
    }
}
