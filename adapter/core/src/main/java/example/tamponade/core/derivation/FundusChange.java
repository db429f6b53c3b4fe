package example.tamponade.core.derivation;

import java.math.BigDecimal;

/**
 * Change of the height of the fundus = now - at insertion, cm, shown with 1 decimal; a rise is positive.
 *
 * <p>Source: common practice, no source.
 */
public final class FundusChange {

    private static final int SCALE = 1;

    private FundusChange() {}

    /**
     * Subtracts the height at insertion from the height now.
     *
     * @param atInsertionCm height relative to the umbilicus, above it positive, cm
     * @param nowCm height relative to the umbilicus, above it positive, cm
     */
    public static FactValue.Amount of(BigDecimal atInsertionCm, BigDecimal nowCm) {
        return new FactValue.Amount(nowCm.subtract(atInsertionCm), "cm", SCALE);
    }
}
