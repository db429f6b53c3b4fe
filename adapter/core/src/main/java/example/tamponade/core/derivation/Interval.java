package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * Time between two moments of a case = to - from, min, shown without decimals; below zero when {@code to} came first.
 * Instants, not local times: a clock change in between neither lengthens nor shortens it.
 *
 * <p>Source: arithmetic.
 */
public final class Interval {

    private static final BigDecimal SECONDS_PER_MINUTE = BigDecimal.valueOf(60);

    private Interval() {}

    /**
     * The minutes from one instant to another.
     *
     * @param from begin
     * @param to end
     */
    public static FactValue.Amount between(Instant from, Instant to) {
        return minutes(Duration.between(from, to));
    }

    /**
     * The minutes between two moments of which either may not have been recorded.
     *
     * @param from begin; absent gives no value
     * @param to end; absent gives no value
     */
    public static FactValue ifBoth(@Nullable Instant from, @Nullable Instant to) {
        if (from == null || to == null) {
            return new FactValue.Missing(AbsentReason.INPUT_MISSING);
        }
        return between(from, to);
    }

    static FactValue.Amount minutes(Duration span) {
        BigDecimal minutes = Seconds.of(span).divide(SECONDS_PER_MINUTE, MathContext.DECIMAL128);
        return new FactValue.Amount(minutes, "min", 0);
    }
}
