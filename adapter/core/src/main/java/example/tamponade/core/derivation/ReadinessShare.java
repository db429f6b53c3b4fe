package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * Share of days on which a facility was ready = 100 x days with a complete set, in date and within reach / days, %, shown
 * with 1 decimal. A check speaks for its day and the days after it, until the next check, until the set expires or until
 * the check is too old. Days of which no check speaks were not ready. The set may still be used on the day it expires.
 *
 * <p>Source: common practice, no source.
 */
public final class ReadinessShare {

    private ReadinessShare() {}

    /**
     * What one check of the set found.
     *
     * @param on day of the check, local to the facility
     * @param ready whether the set was complete and within reach
     * @param expiry last day of its use; absent when it has none
     */
    public record Checked(
            LocalDate on, boolean ready, @Nullable LocalDate expiry) {

        private boolean readyOn(LocalDate day, int speaksForDays) {
            boolean inDate = expiry == null || !day.isAfter(expiry);
            return ready && inDate && ChronoUnit.DAYS.between(on, day) < speaksForDays;
        }
    }

    /**
     * The share of the days from one to another, both included.
     *
     * @param checks checks in the order they were made; of two on one day the later counts
     * @param from first day
     * @param to last day; before the first there are no days and no value
     * @param speaksForDays for how many days a check speaks, its own included, from the care protocol
     */
    public static FactValue of(List<Checked> checks, LocalDate from, LocalDate to, int speaksForDays) {
        TreeMap<LocalDate, Checked> byDay = new TreeMap<>();
        checks.forEach(it -> byDay.put(it.on(), it));
        long ready = 0;
        long days = 0;
        for (LocalDate day = from; !day.isAfter(to); day = day.plusDays(1)) {
            Map.Entry<LocalDate, Checked> latest = byDay.floorEntry(day);
            ready += latest != null && latest.getValue().readyOn(day, speaksForDays) ? 1 : 0;
            days++;
        }
        return Quotient.percent(BigDecimal.valueOf(ready), BigDecimal.valueOf(days));
    }
}
