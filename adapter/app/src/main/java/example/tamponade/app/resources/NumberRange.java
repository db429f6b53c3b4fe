package example.tamponade.app.resources;

import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * Numbers that are a few characters long and take gigabytes once written out, as 1e999999999. FHIR R4 asks nobody to read
 * more than 18 digits: <a href="http://hl7.org/fhir/R4/datatypes.html#decimal">data types, decimal</a>.
 */
final class NumberRange {

    private static final int MOST_PLACES = 400;

    private NumberRange() {}

    /** The JSON pointer of the first number with more places before or behind the point than any reader has; null if none. */
    static @Nullable String firstBeyond(JsonNode node, String path) {
        if (node.isNumber()) {
            return Math.abs((long) node.decimalValue().scale()) > MOST_PLACES ? path : null;
        }
        String found = null;
        if (node.isObject()) {
            for (String name : node.propertyNames()) {
                found = found == null ? firstBeyond(node.path(name), path + "/" + name) : found;
            }
        }
        for (int i = 0; node.isArray() && found == null && i < node.size(); i++) {
            found = firstBeyond(node.path(i), path + "/" + i);
        }
        return found;
    }
}
