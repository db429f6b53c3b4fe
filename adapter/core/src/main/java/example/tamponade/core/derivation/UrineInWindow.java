package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Duration;
import java.time.Instant;
import java.util.Collection;

/**
 * Urine output over a rolling window = urine of the window / hours of it in which urine was collected, mL/h, shown with 1
 * decimal. A collection that reaches beyond the window counts by the share of its time that lies inside. Hours without a
 * collection count neither as dry nor as wet.
 *
 * <p>Source: arithmetic; even flow within a collection is assumed.
 */
public final class UrineInWindow {

    private static final int SCALE = 1;

    private UrineInWindow() {}

    /**
     * Divides what was passed in the window by the time that was collected.
     *
     * @param collections collections in any order that do not overlap one another
     * @param until end of the window
     * @param window its length
     * @return no value when nothing was collected within the window
     */
    public static FactValue of(Collection<UrineCollection> collections, Instant until, Duration window) {
        Instant begin = until.minus(window);
        BigDecimal volumeMl = BigDecimal.ZERO;
        Duration collected = Duration.ZERO;
        for (UrineCollection collection : collections) {
            Duration inside = overlap(collection, begin, until);
            if (inside.compareTo(Duration.ZERO) > 0) {
                volumeMl = volumeMl.add(share(collection, inside));
                collected = collected.plus(inside);
            }
        }
        return collected.isZero()
                ? new FactValue.Missing(AbsentReason.INPUT_MISSING)
                : Quotient.perHour(volumeMl, collected, "mL/h", SCALE);
    }

    /** How long urine was collected within the window. */
    public static Duration collected(Collection<UrineCollection> collections, Instant until, Duration window) {
        return collections.stream()
                .map(it -> overlap(it, until.minus(window), until))
                .filter(it -> !it.isNegative())
                .reduce(Duration.ZERO, Duration::plus);
    }

    private static Duration overlap(UrineCollection collection, Instant begin, Instant until) {
        Instant from = collection.from().isAfter(begin) ? collection.from() : begin;
        Instant to = collection.to().isBefore(until) ? collection.to() : until;
        return Duration.between(from, to);
    }

    private static BigDecimal share(UrineCollection collection, Duration inside) {
        return collection
                .volumeMl()
                .multiply(Seconds.of(inside))
                .divide(Seconds.of(collection.length()), MathContext.DECIMAL128);
    }
}
