package example.tamponade.conformance.rules;

import java.util.Map;
import java.util.Set;

/**
 * A value set.
 *
 * @param url its address
 * @param known whether its codes are known: otherwise it takes codes of systems that are not here
 * @param codes its codes by system
 * @param takes the systems that it takes codes from
 */
public record ValueSetRule(String url, boolean known, Map<String, Set<String>> codes, Set<String> takes) {

    /** Whether a code is in it. */
    public boolean has(String system, String code) {
        return codes.getOrDefault(system, Set.of()).contains(code);
    }

    /** Whether it has the code in some system: what a plain code says. */
    public boolean has(String code) {
        for (Set<String> ofSystem : codes.values()) {
            if (ofSystem.contains(code)) {
                return true;
            }
        }
        return false;
    }
}
