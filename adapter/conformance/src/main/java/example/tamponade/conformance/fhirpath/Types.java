package example.tamponade.conformance.fhirpath;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** What FHIRPath asks about types. */
final class Types {

    private static final Set<String> FUNCTIONS = Set.of("is", "as", "ofType");
    private static final Set<String> DERIVED_OF_URI = Set.of("uri", "url", "canonical", "oid", "uuid");
    private static final Set<String> DERIVED_OF_STRING = Set.of("string", "code", "id", "markdown");
    private static final Set<String> QUANTITIES = Set.of("Quantity", "Age", "Count", "Distance", "Duration", "Money");

    private Types() {}

    static boolean isFunction(String name) {
        return FUNCTIONS.contains(name);
    }

    static List<?> call(String function, List<?> input, String type) {
        return switch (function) {
            case "is" -> input.size() == 1 ? Values.of(is(input.get(0), type)) : List.of();
            default -> ofType(input, type);
        };
    }

    private static List<?> ofType(List<?> input, String type) {
        List<Object> found = new ArrayList<>(input.size());
        for (Object item : input) {
            if (is(item, type)) {
                found.add(item);
            }
        }
        return found;
    }

    private static boolean is(Object item, String type) {
        String actual = item instanceof Node node
                ? node.type()
                : item instanceof Boolean ? "boolean" : item instanceof String ? "string" : "decimal";
        return actual.equals(type)
                || (type.equals("uri") && DERIVED_OF_URI.contains(actual))
                || (type.equals("string") && DERIVED_OF_STRING.contains(actual))
                || (type.equals("Quantity") && QUANTITIES.contains(actual));
    }
}
