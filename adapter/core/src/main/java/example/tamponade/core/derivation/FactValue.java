package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** What a formula gives: an amount with its unit, or the reason why there is none. */
public sealed interface FactValue {

    /**
     * An amount.
     *
     * @param value unrounded; thresholds compare this
     * @param unit UCUM unit, for example {@code mL}
     * @param scale decimals to show, for example 2 for a shock index
     */
    record Amount(BigDecimal value, String unit, int scale) implements FactValue {

        /** The amount rounded half up to its scale: what is shown and sent. */
        public BigDecimal rounded() {
            return value.setScale(scale, RoundingMode.HALF_UP);
        }
    }

    /**
     * No amount could be derived.
     *
     * @param reason why
     */
    record Missing(AbsentReason reason) implements FactValue {}
}
