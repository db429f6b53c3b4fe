package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.function.Predicate;

/**
 * How long urine has been too little = end of the last collection - begin of the first of the unbroken run of low
 * collections that it ends, min, shown without decimals; 0 when the last collection is not low.
 *
 * <p>A time in which nothing was collected breaks the run unless it is within the allowed gap: what was not measured was
 * not low. A collection without length is left out.
 *
 * <p>Source: durations as in Mhyre JM et al., Obstet Gynecol 2014;124:782, doi 10.1097/AOG.0000000000000480 (2 h), WHO
 * maternal near-miss criteria (4 h), KDIGO 2012 (6, 12, 24 h).
 */
public final class LowUrineTime {

    private LowUrineTime() {}

    /**
     * The time below a limit; a collection exactly at the limit is not low.
     *
     * @param collections collections in any order
     * @param limitMlPerH limit, mL/h, from the care protocol
     * @param allowedGap longest time between two collections of one run
     */
    public static FactValue.Amount below(
            Collection<UrineCollection> collections, BigDecimal limitMlPerH, Duration allowedGap) {
        // Multiplied out instead of divided, so that 20 mL in 40 min is not below 30 mL/h by a rounding.
        return lastRun(
                collections,
                allowedGap,
                it -> it.volumeMl().multiply(Seconds.PER_HOUR).compareTo(limitMlPerH.multiply(Seconds.of(it.length())))
                        < 0);
    }

    /**
     * The time without any urine.
     *
     * @param collections collections in any order
     * @param allowedGap longest time between two collections of one run
     */
    public static FactValue.Amount withoutUrine(Collection<UrineCollection> collections, Duration allowedGap) {
        return lastRun(collections, allowedGap, it -> it.volumeMl().signum() == 0);
    }

    private static FactValue.Amount lastRun(
            Collection<UrineCollection> collections, Duration allowedGap, Predicate<UrineCollection> low) {
        List<UrineCollection> latestFirst = collections.stream()
                .filter(it -> it.from().isBefore(it.to()))
                .sorted(Comparator.comparing(UrineCollection::to).reversed())
                .toList();
        if (latestFirst.isEmpty()) {
            return Interval.minutes(Duration.ZERO);
        }
        Instant end = latestFirst.get(0).to();
        Instant begin = end;
        for (UrineCollection collection : latestFirst) {
            if (!low.test(collection) || collection.to().plus(allowedGap).isBefore(begin)) {
                break;
            }
            begin = collection.from().isBefore(begin) ? collection.from() : begin;
        }
        return Interval.between(begin, end);
    }
}
