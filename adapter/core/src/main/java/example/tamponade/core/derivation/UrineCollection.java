package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Duration;
import java.time.Instant;

/**
 * Urine collected over a time.
 *
 * @param from begin of the collection
 * @param to end of the collection, not before its begin
 * @param volumeMl volume, mL, for example 55
 */
public record UrineCollection(Instant from, Instant to, BigDecimal volumeMl) {

    /** What lies between two times in it, with that share of the volume. */
    UrineCollection part(Instant begin, Instant end) {
        if (begin.equals(from) && end.equals(to)) {
            return this;
        }
        BigDecimal share = volumeMl.multiply(Seconds.of(Duration.between(begin, end)))
                .divide(Seconds.of(length()), MathContext.DECIMAL128);
        return new UrineCollection(begin, end, share);
    }

    /** How long it was collected. */
    public Duration length() {
        return Duration.between(from, to);
    }
}
