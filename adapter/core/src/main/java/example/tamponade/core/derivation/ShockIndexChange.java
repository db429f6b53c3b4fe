package example.tamponade.core.derivation;

import java.math.BigDecimal;

/**
 * Change of the shock index = later - first, shown with 2 decimals; a rise is positive.
 *
 * <p>Papers differ in sign: Celikkan et al., Z Geburtshilfe Neonatol 2024, doi 10.1055/a-2322-1861, take the first minus
 * the later, so that a rise is negative there.
 */
public final class ShockIndexChange {

    private static final int SCALE = 2;

    private ShockIndexChange() {}

    /**
     * Subtracts the first from the later index.
     *
     * @param first unrounded shock index to compare with
     * @param later unrounded shock index now
     */
    public static FactValue.Amount of(BigDecimal first, BigDecimal later) {
        return new FactValue.Amount(later.subtract(first), "{ratio}", SCALE);
    }
}
