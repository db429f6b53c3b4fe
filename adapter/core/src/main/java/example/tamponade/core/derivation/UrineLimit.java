package example.tamponade.core.derivation;

import java.math.BigDecimal;

/**
 * The urine output below which a woman of that weight passes too little = weight x limit by weight, mL/h, shown with 1
 * decimal.
 *
 * <p>Source: KDIGO Clinical Practice Guideline for Acute Kidney Injury, 2012 (0.5 and 0.3 mL/kg/h).
 */
public final class UrineLimit {

    private static final int SCALE = 1;

    private UrineLimit() {}

    /**
     * Multiplies weight by the limit.
     *
     * @param weightKg body weight, kg
     * @param millilitresPerKgAndHour limit, mL/kg/h, from the care protocol
     */
    public static FactValue.Amount of(BigDecimal weightKg, BigDecimal millilitresPerKgAndHour) {
        return new FactValue.Amount(weightKg.multiply(millilitresPerKgAndHour), "mL/h", SCALE);
    }
}
