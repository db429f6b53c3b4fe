package example.tamponade.core.derivation;

import java.math.BigDecimal;

/**
 * Pulse pressure = systolic - diastolic, mm[Hg], shown without decimals.
 *
 * <p>Source: textbook formula; used in Nathan HL et al., BJOG 2015, doi 10.1111/1471-0528.13206.
 */
public final class PulsePressure {

    private PulsePressure() {}

    /**
     * Subtracts the diastolic from the systolic pressure.
     *
     * @param systolic systolic blood pressure, mm[Hg], not below diastolic
     * @param diastolic diastolic blood pressure, mm[Hg]
     */
    public static FactValue.Amount of(BigDecimal systolic, BigDecimal diastolic) {
        return new FactValue.Amount(systolic.subtract(diastolic), "mm[Hg]", 0);
    }
}
