package example.tamponade.conformance.check;

import java.util.HashMap;
import java.util.Map;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * The addresses of the entries of a bundle, and how a reference in one leads to another.
 *
 * <p>Source: FHIR R4, <a href="http://hl7.org/fhir/R4/bundle.html#references">Resolving references in Bundles</a>.
 */
final class Addresses {

    private static final Pattern RESTFUL = Pattern.compile("https?://.+/[A-Z][A-Za-z]+/[A-Za-z0-9\\-.]{1,64}");

    private final Map<String, Element> resources = new HashMap<>();
    private final Map<String, Integer> times = new HashMap<>();

    /** Adds an entry. */
    void add(String fullUrl, Element resource) {
        resources.put(fullUrl, resource);
        times.merge(fullUrl, 1, Integer::sum);
    }

    /** Whether an address ends with a type and an id. */
    static boolean isRestful(String fullUrl) {
        return RESTFUL.matcher(fullUrl).matches();
    }

    /** The address that a reference names, seen from the entry at an address; null when it names none. */
    static @Nullable String target(String reference, String from) {
        if (Primitives.isSystem(reference)) {
            int history = reference.indexOf("/_history/");
            return history < 0 ? reference : reference.substring(0, history);
        }
        String plain = reference.replaceFirst("/_history/.*", "");
        int slash = plain.indexOf('/');
        if (slash < 0 || plain.indexOf('/', slash + 1) >= 0) {
            return null;
        }
        if (from.startsWith("urn")) {
            return from.substring(0, from.lastIndexOf(':') + 1) + plain.substring(slash + 1);
        }
        int type = from.lastIndexOf('/', Math.max(0, from.lastIndexOf('/') - 1));
        return from.substring(0, type + 1) + plain;
    }

    @Nullable
    Element get(@Nullable String address) {
        return address == null ? null : resources.get(address);
    }

    boolean isTwice(@Nullable String address) {
        return address != null && times.getOrDefault(address, 0) > 1;
    }
}
