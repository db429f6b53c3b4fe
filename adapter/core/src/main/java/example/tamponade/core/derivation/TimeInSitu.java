package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Duration;
import java.time.Instant;

/**
 * Time in situ = until - inserted, min, shown without decimals. Instants, not local times: a clock change in between does
 * not lengthen it.
 *
 * <p>Source: common practice, no source.
 */
public final class TimeInSitu {

    private static final BigDecimal SECONDS_PER_MINUTE = BigDecimal.valueOf(60);

    private TimeInSitu() {}

    /**
     * The minutes between two instants.
     *
     * @param inserted when the device was placed
     * @param until when it was removed, or up to when the time is asked; not before {@code inserted}
     */
    public static FactValue.Amount between(Instant inserted, Instant until) {
        BigDecimal seconds =
                BigDecimal.valueOf(Duration.between(inserted, until).toSeconds());
        return new FactValue.Amount(seconds.divide(SECONDS_PER_MINUTE, MathContext.DECIMAL128), "min", 0);
    }
}
