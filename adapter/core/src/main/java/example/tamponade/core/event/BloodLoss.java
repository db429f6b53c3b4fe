package example.tamponade.core.event;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * A reading of blood loss: either a volume or a wet and a dry weight.
 *
 * @param method how it was measured
 * @param reading whether it adds or is a running total
 * @param collector the name of the drape, canister or pile of pads; absent: one unnamed collector a method
 * @param volumeMl volume read, mL; absent when weighed
 * @param wetG wet weight, g
 * @param dryG dry weight, g
 * @param otherFluidMl other fluid in the reading (amniotic, irrigation, urine), mL; absent means none is known
 * @param emptied true when the collector was emptied after this reading
 */
public record BloodLoss(
        LossMethod method,
        LossReading reading,
        @Nullable String collector,
        @Nullable BigDecimal volumeMl,
        @Nullable BigDecimal wetG,
        @Nullable BigDecimal dryG,
        @Nullable BigDecimal otherFluidMl,
        @Nullable Boolean emptied)
        implements BedsideEvent {}
