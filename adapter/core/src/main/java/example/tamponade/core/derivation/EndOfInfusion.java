package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * When an infusion or slow injection ends = begin + volume / rate, to the whole second.
 *
 * <p>Source: arithmetic; tranexamic acid as 10 mL at 1 mL/min in WHO recommendation on tranexamic acid for the treatment of
 * postpartum haemorrhage, 2017, ISBN 978-92-4-155015-4.
 */
public final class EndOfInfusion {

    // A hundred years; nothing that is told to run longer has an end worth waiting for, or one that a clock can show.
    private static final BigDecimal LONGEST =
            BigDecimal.valueOf(Duration.ofDays(36_525).toSeconds());

    private EndOfInfusion() {}

    /**
     * Adds the time that the volume takes.
     *
     * @param begin when it began
     * @param volumeMl volume to give, mL
     * @param rateMlPerH rate, mL/h; 1 mL/min is 60
     * @return absent when the rate is zero, or so slow that it would run for more than a hundred years: it never ends
     */
    public static @Nullable Instant of(Instant begin, BigDecimal volumeMl, BigDecimal rateMlPerH) {
        if (rateMlPerH.signum() == 0) {
            return null;
        }
        BigDecimal seconds = volumeMl.multiply(Seconds.PER_HOUR).divide(rateMlPerH, 0, RoundingMode.HALF_UP);
        return seconds.compareTo(LONGEST) > 0 ? null : begin.plusSeconds(seconds.longValueExact());
    }
}
