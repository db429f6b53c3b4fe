package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.time.Duration;

/** The exact decimal seconds of a time span, fractions kept. */
final class Seconds {

    static final BigDecimal PER_HOUR = BigDecimal.valueOf(3600);

    private static final int NANO_DIGITS = 9;

    private Seconds() {}

    static BigDecimal of(Duration span) {
        return BigDecimal.valueOf(span.getSeconds()).add(BigDecimal.valueOf(span.getNano(), NANO_DIGITS));
    }
}
