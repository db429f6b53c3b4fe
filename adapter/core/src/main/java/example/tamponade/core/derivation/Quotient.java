package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Duration;

/** Divides to 34 digits, unrounded for every threshold; by zero there is no value, never infinity. */
final class Quotient {

    private static final BigDecimal HUNDRED = BigDecimal.valueOf(100);

    private Quotient() {}

    static FactValue of(BigDecimal dividend, BigDecimal divisor, String unit, int scale) {
        if (divisor.signum() == 0) {
            return new FactValue.Missing(AbsentReason.DIVISOR_ZERO);
        }
        return new FactValue.Amount(dividend.divide(divisor, MathContext.DECIMAL128), unit, scale);
    }

    /** An amount by the hours it took. Multiplies before it divides, so that 20 in 40 min is 30 an hour exactly. */
    static FactValue perHour(BigDecimal amount, Duration time, String unit, int scale) {
        return perHour(amount, time, BigDecimal.ONE, unit, scale);
    }

    /** The same, shared among something, for example kilograms. */
    static FactValue perHour(BigDecimal amount, Duration time, BigDecimal among, String unit, int scale) {
        return of(amount.multiply(Seconds.PER_HOUR), Seconds.of(time).multiply(among), unit, scale);
    }

    /** A part of a whole, %, with 1 decimal. */
    static FactValue percent(BigDecimal part, BigDecimal whole) {
        return of(part.multiply(HUNDRED), whole, "%", 1);
    }
}
