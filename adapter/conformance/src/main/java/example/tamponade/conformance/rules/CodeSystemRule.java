package example.tamponade.conformance.rules;

import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A code system whose codes are known.
 *
 * @param url its address
 * @param fragment whether there are more codes than these
 * @param anyCase whether codes may be written in upper or lower case
 * @param displays the displays by code; where case does not count, by the code in lower case
 */
public record CodeSystemRule(String url, boolean fragment, boolean anyCase, Map<String, String> displays) {

    /** Whether it has that code. */
    public boolean has(String code) {
        return displays.containsKey(folded(code));
    }

    /** The display of a code; null when it has none. */
    public @Nullable String display(String code) {
        String display = displays.get(folded(code));
        return display == null || display.isEmpty() ? null : display;
    }

    private String folded(String code) {
        return anyCase ? code.toLowerCase(Locale.ROOT) : code;
    }
}
