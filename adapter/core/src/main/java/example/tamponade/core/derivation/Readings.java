package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.util.Map;
import java.util.Set;

/**
 * What is known of a woman at one time, for rules to look at.
 *
 * @param values unrounded values of what was measured, in the sign's unit; what was not measured is left out
 * @param seen what was seen
 */
public record Readings(Map<Sign, BigDecimal> values, Set<Sign> seen) {

    public Readings {
        values = Map.copyOf(values);
        seen = Set.copyOf(seen);
    }
}
