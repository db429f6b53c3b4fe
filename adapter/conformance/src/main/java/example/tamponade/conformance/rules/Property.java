package example.tamponade.conformance.rules;

import java.util.HashMap;
import java.util.Map;

/**
 * What a JSON property is.
 *
 * @param rules the rules of the element
 * @param type its FHIR type; of a choice the one that the name says
 */
public record Property(Rules rules, String type) {

    /** Whether the type is primitive; the names of those begin with a small letter. */
    public boolean isPrimitive() {
        return Character.isLowerCase(type.charAt(0));
    }

    static Map<String, Property> of(Rules parent) {
        Map<String, Property> properties = new HashMap<>();
        for (Rules child : parent.children()) {
            for (TypeRule type : child.types()) {
                String name = child.head().choice()
                        ? child.head().name() + capitalized(type.code())
                        : child.head().name();
                properties.put(name, new Property(child, type.code()));
            }
            if (child.types().isEmpty()) {
                properties.put(child.head().name(), new Property(child, "BackboneElement"));
            }
        }
        return properties;
    }

    private static String capitalized(String type) {
        return Character.toUpperCase(type.charAt(0)) + type.substring(1);
    }
}
