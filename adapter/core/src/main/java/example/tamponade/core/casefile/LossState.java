package example.tamponade.core.casefile;

import example.tamponade.core.derivation.AtlsClass;
import java.math.BigDecimal;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.pcollections.HashTreePMap;
import org.pcollections.PMap;
import org.pcollections.PVector;
import org.pcollections.TreePVector;

/**
 * Blood loss so far.
 *
 * @param total everything lost so far, mL
 * @param collectors what each collector with a running total holds, mL
 * @param totals the latest total and those before it that the rates of loss reach back to, in order
 * @param totalAtInsertion what had been lost when the latest device was inserted, mL
 * @param lossClass the class of the loss by share of the blood volume; absent while that is not known
 * @param lastReading the reading before, to see the same blood counted twice
 */
record LossState(
        BigDecimal total,
        PMap<String, BigDecimal> collectors,
        PVector<Total> totals,
        BigDecimal totalAtInsertion,
        @Nullable AtlsClass lossClass,
        @Nullable LastReading lastReading) {

    static final LossState NONE =
            new LossState(BigDecimal.ZERO, HashTreePMap.empty(), TreePVector.empty(), BigDecimal.ZERO, null, null);

    /**
     * A total that was reached.
     *
     * @param at when
     * @param volumeMl the total, mL
     * @param fact the fact that holds it
     */
    record Total(Instant at, BigDecimal volumeMl, FactKey fact) {}

    /**
     * The reading before.
     *
     * @param minute when, cut to the minute
     * @param collector of which collector
     * @param volumeMl its net volume, mL
     */
    record LastReading(Instant minute, String collector, BigDecimal volumeMl) {}

    @Nullable
    FactKey lastFact() {
        return totals.isEmpty() ? null : totals.get(totals.size() - 1).fact();
    }

    LossState holding(PMap<String, BigDecimal> held) {
        return new LossState(total, held, totals, totalAtInsertion, lossClass, lastReading);
    }

    LossState reading(LastReading reading) {
        return new LossState(total, collectors, totals, totalAtInsertion, lossClass, reading);
    }

    LossState total(BigDecimal volumeMl, PVector<Total> reached) {
        return new LossState(volumeMl, collectors, reached, totalAtInsertion, lossClass, lastReading);
    }

    LossState atInsertion() {
        return new LossState(total, collectors, totals, total, lossClass, lastReading);
    }

    LossState of(AtlsClass reached) {
        return new LossState(total, collectors, totals, totalAtInsertion, reached, lastReading);
    }
}
