package example.tamponade.core.casefile;

import java.math.BigDecimal;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.pcollections.HashTreePMap;
import org.pcollections.PMap;

/**
 * Blood loss so far.
 *
 * @param total everything lost so far, mL
 * @param collectors what each collector with a running total holds, mL
 * @param lastTotal the fact that holds {@code total}; absent before the first reading
 * @param lastReading the reading before, to see the same blood counted twice
 */
record LossState(
        BigDecimal total,
        PMap<String, BigDecimal> collectors,
        @Nullable FactKey lastTotal,
        @Nullable LastReading lastReading) {

    static final LossState NONE = new LossState(BigDecimal.ZERO, HashTreePMap.empty(), null, null);

    /**
     * The reading before.
     *
     * @param minute when, cut to the minute
     * @param collector of which collector
     * @param volumeMl its net volume, mL
     */
    record LastReading(Instant minute, String collector, BigDecimal volumeMl) {}
}
