package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.util.Collection;

/**
 * Fluid balance = everything in - everything out, mL, shown without decimals; positive when more went in.
 *
 * <p>Source: arithmetic.
 */
public final class FluidBalance {

    private FluidBalance() {}

    /**
     * Subtracts what went out from what went in.
     *
     * @param inMl crystalloids, medicines by volume and blood products, mL
     * @param outMl blood loss and urine, mL
     */
    public static FactValue.Amount of(Collection<BigDecimal> inMl, Collection<BigDecimal> outMl) {
        return new FactValue.Amount(sum(inMl).subtract(sum(outMl)), "mL", 0);
    }

    private static BigDecimal sum(Collection<BigDecimal> volumesMl) {
        return volumesMl.stream().reduce(BigDecimal.ZERO, BigDecimal::add);
    }
}
