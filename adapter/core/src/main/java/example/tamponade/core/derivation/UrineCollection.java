package example.tamponade.core.derivation;

import java.math.BigDecimal;
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

    /** How long it was collected. */
    public Duration length() {
        return Duration.between(from, to);
    }
}
