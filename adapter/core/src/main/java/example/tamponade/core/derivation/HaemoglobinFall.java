package example.tamponade.core.derivation;

import java.math.BigDecimal;

/**
 * Fall of the haemoglobin = first result of the case - this one, g/L, shown without decimals; a rise is negative.
 *
 * <p>Source: arithmetic.
 */
public final class HaemoglobinFall {

    private HaemoglobinFall() {}

    /**
     * Subtracts.
     *
     * @param firstGPerL first haemoglobin, g/L
     * @param nowGPerL this haemoglobin, g/L
     */
    public static FactValue.Amount of(BigDecimal firstGPerL, BigDecimal nowGPerL) {
        return new FactValue.Amount(firstGPerL.subtract(nowGPerL), "g/L", 0);
    }
}
