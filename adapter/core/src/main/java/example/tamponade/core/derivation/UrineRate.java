package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.time.Duration;

/**
 * Urine output = volume / hours, mL/h, shown with 1 decimal; by weight = volume / hours / weight, mL/kg/h, shown with 2.
 *
 * <p>Source: arithmetic; output by weight as in KDIGO Clinical Practice Guideline for Acute Kidney Injury, 2012.
 */
public final class UrineRate {

    private static final int SCALE = 1;
    private static final int BY_WEIGHT_SCALE = 2;

    private UrineRate() {}

    /**
     * The output an hour.
     *
     * @param volumeMl volume collected, mL
     * @param time how long it was collected; zero gives no value
     */
    public static FactValue perHour(BigDecimal volumeMl, Duration time) {
        return Quotient.perHour(volumeMl, time, "mL/h", SCALE);
    }

    /**
     * The output an hour for each kilogram.
     *
     * @param volumeMl volume collected, mL
     * @param time how long it was collected; zero gives no value
     * @param weightKg body weight, kg; zero gives no value
     */
    public static FactValue perKilogramAndHour(BigDecimal volumeMl, Duration time, BigDecimal weightKg) {
        return Quotient.perHour(volumeMl, time, weightKg, "mL/kg/h", BY_WEIGHT_SCALE);
    }
}
