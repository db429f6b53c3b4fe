package example.tamponade.core.derivation;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

class BalloonTimesTest {

    private static final OffsetDateTime INSERTED = OffsetDateTime.parse("2026-02-11T23:27:00+05:45");

    @ParameterizedTest
    @CsvFileSource(resources = "/published/balloon/dwell.csv", numLinesToSkip = 1)
    void countsTheTimeInPlaceBetweenInstants(
            String row, OffsetDateTime inserted, OffsetDateTime at, BigDecimal minutes, String state) {
        BigDecimal inPlace =
                TimeInSitu.between(inserted.toInstant(), at.toInstant()).value();

        assertThat(inPlace.setScale(minutes.scale(), RoundingMode.HALF_UP)).isEqualTo(minutes);
    }

    @Test
    void hasNoIntervalWhenAnEndWasNotRecorded() {
        FactValue missing = new FactValue.Missing(AbsentReason.INPUT_MISSING);

        assertThat(Interval.ifBoth(null, minute(1))).isEqualTo(missing);
        assertThat(Interval.ifBoth(minute(1), null)).isEqualTo(missing);
        assertThat(Interval.ifBoth(minute(1), minute(4))).isEqualTo(Interval.between(minute(1), minute(4)));
    }

    // Common practice, no source: 6 h in place and 12 h stable.
    @ParameterizedTest
    @CsvSource({"9, 729", "80, 800"})
    void mayBeLetDownWhenLongEnoughInPlaceAndStable(long stableSinceMin, long earliestMin) {
        assertThat(DeflationStart.of(minute(0), Duration.ofHours(6), minute(stableSinceMin), Duration.ofHours(12)))
                .isEqualTo(minute(earliestMin));
    }

    @Test
    void theMinimumDwellMayBeTheLonger() {
        assertThat(DeflationStart.of(minute(0), Duration.ofHours(6), minute(9), Duration.ofHours(1)))
                .isEqualTo(minute(360));
    }

    @Test
    void aRiseOfTheFundusIsPositive() {
        assertThat(FundusChange.of(new BigDecimal(-1), new BigDecimal("1.5")).rounded())
                .isEqualTo("2.5");
    }

    private static Instant minute(long minute) {
        return INSERTED.plusMinutes(minute).toInstant();
    }
}
