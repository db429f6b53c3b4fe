package example.tamponade.core.casefile;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * Fluids so far.
 *
 * @param inMl fluids and blood products given, mL
 * @param outMl urine and blood lost, mL
 * @param inFact the fact that holds {@code inMl}; absent before the first
 * @param outFact the fact that holds {@code outMl}; absent before the first
 */
record FluidState(
        BigDecimal inMl,
        BigDecimal outMl,
        @Nullable FactKey inFact,
        @Nullable FactKey outFact) {

    static final FluidState NONE = new FluidState(BigDecimal.ZERO, BigDecimal.ZERO, null, null);
}
