package example.tamponade.core.derivation;

import java.math.BigDecimal;

/**
 * Modified shock index = heart rate / mean arterial pressure, shown with 2 decimals.
 *
 * <p>Source: Kwon et al., Med Sci Monit 2024;30:e943286.
 */
public final class ModifiedShockIndex {

    private static final int SCALE = 2;

    private ModifiedShockIndex() {}

    /**
     * Divides pulse by mean arterial pressure.
     *
     * @param pulse heart rate, /min
     * @param meanArterialPressure unrounded mean arterial pressure, mm[Hg]; zero gives no value, never infinity
     */
    public static FactValue of(BigDecimal pulse, BigDecimal meanArterialPressure) {
        return Quotient.of(pulse, meanArterialPressure, "{ratio}", SCALE);
    }
}
