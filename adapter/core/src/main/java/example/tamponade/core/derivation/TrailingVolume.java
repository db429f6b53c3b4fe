package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.Collection;

/**
 * Volume in the last window = sum of the volumes after {@code until - window}, up to and with {@code until}, mL, shown with
 * 1 decimal. The begin does not belong to the window, so that windows that adjoin count every volume once.
 *
 * <p>Source: arithmetic.
 */
public final class TrailingVolume {

    private static final int SCALE = 1;

    private TrailingVolume() {}

    /**
     * Adds what lies in the window; nothing in it gives 0 mL.
     *
     * @param volumes volumes in any order
     * @param until end of the window
     * @param window its length
     */
    public static FactValue.Amount of(Collection<TimedVolume> volumes, Instant until, Duration window) {
        Instant begin = until.minus(window);
        BigDecimal sum = volumes.stream()
                .filter(it -> it.at().isAfter(begin) && !it.at().isAfter(until))
                .map(TimedVolume::volumeMl)
                .reduce(BigDecimal.ZERO, BigDecimal::add);
        return new FactValue.Amount(sum, "mL", SCALE);
    }
}
