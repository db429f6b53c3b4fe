package example.tamponade.core.derivation;

import java.math.BigDecimal;

/**
 * Shock index = heart rate / systolic blood pressure, shown with 2 decimals.
 *
 * <p>Source: Nathan HL et al., BJOG 2015, doi 10.1111/1471-0528.13206.
 */
public final class ShockIndex {

    private static final int SCALE = 2;

    private ShockIndex() {}

    /**
     * Divides pulse by systolic pressure.
     *
     * @param pulse heart rate, /min
     * @param systolic systolic blood pressure, mm[Hg]; zero gives no value, never infinity
     */
    public static FactValue of(BigDecimal pulse, BigDecimal systolic) {
        return Quotient.of(pulse, systolic, "{ratio}", SCALE);
    }
}
