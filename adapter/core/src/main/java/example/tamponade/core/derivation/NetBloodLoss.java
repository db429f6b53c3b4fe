package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.math.MathContext;

/**
 * The blood in one reading, mL, shown with 1 decimal: volume read - other fluid, or (wet - dry) / density - other fluid.
 *
 * <p>Source: AWHONN Practice Brief 1; ACOG Committee Opinion 794, doi 10.1097/AOG.0000000000003564.
 */
public final class NetBloodLoss {

    private static final int SCALE = 1;

    private NetBloodLoss() {}

    /**
     * The blood in a volume that was read.
     *
     * @param volumeMl volume read, mL
     * @param otherFluidMl amniotic fluid, irrigation or urine in it, mL
     */
    public static FactValue.Amount ofVolume(BigDecimal volumeMl, BigDecimal otherFluidMl) {
        return new FactValue.Amount(volumeMl.subtract(otherFluidMl), "mL", SCALE);
    }

    /**
     * The blood in something that was weighed.
     *
     * @param wetG wet weight, g
     * @param dryG dry weight, g
     * @param densityGPerMl density of blood, g/mL, from the care protocol
     * @param otherFluidMl other fluid in it, mL
     */
    public static FactValue.Amount ofWeight(
            BigDecimal wetG, BigDecimal dryG, BigDecimal densityGPerMl, BigDecimal otherFluidMl) {
        BigDecimal volumeMl = wetG.subtract(dryG).divide(densityGPerMl, MathContext.DECIMAL128);
        return ofVolume(volumeMl, otherFluidMl);
    }
}
