package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.math.MathContext;

/**
 * Mean arterial pressure = (systolic + 2 x diastolic) / 3, mm[Hg], shown with 1 decimal.
 *
 * <p>Source: textbook formula; agrees with the medians of Nathan HL et al., PLoS ONE 2016, doi
 * 10.1371/journal.pone.0168535.
 */
public final class MeanArterialPressure {

    private static final BigDecimal TWO = BigDecimal.valueOf(2);
    private static final BigDecimal THREE = BigDecimal.valueOf(3);
    private static final int SCALE = 1;

    private MeanArterialPressure() {}

    /**
     * Weights diastole twice, as it lasts about twice as long.
     *
     * @param systolic systolic blood pressure, mm[Hg], not below diastolic
     * @param diastolic diastolic blood pressure, mm[Hg]
     */
    public static FactValue.Amount of(BigDecimal systolic, BigDecimal diastolic) {
        BigDecimal sum = systolic.add(diastolic.multiply(TWO));
        return new FactValue.Amount(sum.divide(THREE, MathContext.DECIMAL128), "mm[Hg]", SCALE);
    }
}
