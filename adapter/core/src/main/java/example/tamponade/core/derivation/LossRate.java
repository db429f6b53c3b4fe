package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.time.Duration;

/**
 * Rate of blood loss = loss in a window / length of the window, mL/h, shown without decimals.
 *
 * <p>Source: arithmetic.
 */
public final class LossRate {

    private LossRate() {}

    /**
     * Divides the loss by the hours of the window.
     *
     * @param lostMl blood lost in the window, mL
     * @param window length of the window; zero gives no value
     */
    public static FactValue of(BigDecimal lostMl, Duration window) {
        return Quotient.perHour(lostMl, window, "mL/h", 0);
    }
}
