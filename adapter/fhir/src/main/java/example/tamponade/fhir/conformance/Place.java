package example.tamponade.fhir.conformance;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Where a message of the validator belongs.
 *
 * @param resource the innermost entry of a bundle, or the whole
 * @param expression the place in that resource, as FHIRPath
 */
record Place(String resource, String expression) {

    private static final Pattern ENTRY = Pattern.compile("^.*\\bresource/\\*(\\w+)/([^*]*)\\*/(.*)$");
    private static final Pattern COMMENT = Pattern.compile("/\\*[^*]*\\*/");

    /**
     * Reads the validator's location.
     *
     * @param location for example {@code Bundle.entry[3].resource/*Observation/5f0c*}{@code /.value}
     * @param whole what the location begins at
     */
    static Place of(@Nullable String location, String whole) {
        String path = location == null ? "" : location;
        Matcher entry = ENTRY.matcher(path);
        return entry.matches()
                ? new Place(entry.group(1) + "/" + entry.group(2), entry.group(1) + clean(entry.group(3)))
                : new Place(whole, clean(path));
    }

    private static String clean(String path) {
        return COMMENT.matcher(path).replaceAll("");
    }
}
