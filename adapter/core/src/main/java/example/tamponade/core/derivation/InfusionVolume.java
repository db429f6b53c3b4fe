package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Duration;

/**
 * Volume that an infusion has run in = rate x hours, mL, shown with 1 decimal.
 *
 * <p>Source: arithmetic.
 */
public final class InfusionVolume {

    private static final int SCALE = 1;

    private InfusionVolume() {}

    /**
     * Multiplies rate by time.
     *
     * @param rateMlPerH rate, mL/h
     * @param time how long it ran
     */
    public static FactValue.Amount of(BigDecimal rateMlPerH, Duration time) {
        BigDecimal volumeMl = rateMlPerH.multiply(Seconds.of(time)).divide(Seconds.PER_HOUR, MathContext.DECIMAL128);
        return new FactValue.Amount(volumeMl, "mL", SCALE);
    }
}
