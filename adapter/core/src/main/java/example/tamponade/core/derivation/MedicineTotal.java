package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.util.Collection;

/**
 * Total of one medicine = sum of its doses, in their unit, shown without decimals.
 *
 * <p>Source: arithmetic.
 */
public final class MedicineTotal {

    private MedicineTotal() {}

    /**
     * Adds the doses; none gives 0.
     *
     * @param doses doses of one medicine, all in the unit
     * @param unit UCUM unit of every dose, for example {@code [iU]}
     */
    public static FactValue.Amount of(Collection<BigDecimal> doses, String unit) {
        return new FactValue.Amount(doses.stream().reduce(BigDecimal.ZERO, BigDecimal::add), unit, 0);
    }
}
