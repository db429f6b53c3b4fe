package example.tamponade.core.derivation;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * A rule that fired, and the reading that fired it.
 *
 * @param rule the rule
 * @param reading the unrounded reading, in the sign's unit; absent for a sign that was seen
 */
public record FiredSign(SignRule rule, @Nullable BigDecimal reading) {

    /** What fired. */
    public Sign sign() {
        return rule.sign();
    }
}
