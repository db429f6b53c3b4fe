package example.tamponade.core.derivation;

import java.math.BigDecimal;

/**
 * Body mass index = weight / height^2, kg/m2.
 *
 * <p>Source: WHO, Obesity: preventing and managing the global epidemic, Technical Report Series 894, 2000.
 */
public final class BodyMassIndex {

    private static final int CENTIMETRE_DIGITS = 2;

    private BodyMassIndex() {}

    /**
     * Whether the index is above a limit; multiplied out instead of divided, so that nothing is rounded.
     *
     * @param limitKgPerM2 limit, kg/m2
     * @param weightKg body weight, kg
     * @param heightCm body height, cm
     */
    public static boolean isAbove(BigDecimal limitKgPerM2, BigDecimal weightKg, BigDecimal heightCm) {
        BigDecimal heightM = heightCm.movePointLeft(CENTIMETRE_DIGITS);
        return weightKg.compareTo(limitKgPerM2.multiply(heightM).multiply(heightM)) > 0;
    }
}
