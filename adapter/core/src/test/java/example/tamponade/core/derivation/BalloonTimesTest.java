package example.tamponade.core.derivation;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

class BalloonTimesTest {

    private static final OffsetDateTime INSERTED = OffsetDateTime.parse("2026-02-11T23:27:00+05:45");
    private static final DwellState.Limits DWELL =
            new DwellState.Limits(Duration.ofHours(6), Duration.ofHours(24), Duration.ofHours(1));

    @ParameterizedTest
    @CsvFileSource(resources = "/published/balloon/dwell.csv", numLinesToSkip = 1)
    void comparesInstantsWithTheLimits(
            String row, OffsetDateTime inserted, OffsetDateTime at, BigDecimal minutes, String state) {
        BigDecimal inPlace =
                TimeInSitu.between(inserted.toInstant(), at.toInstant()).value();

        assertThat(inPlace.setScale(minutes.scale(), RoundingMode.HALF_UP)).isEqualTo(minutes);
        assertThat(DwellState.of(inserted.toInstant(), at.toInstant(), DWELL).code())
                .isEqualTo(state);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/checks/deadlines.csv", numLinesToSkip = 1)
    void isInTimeUpToTheDeadline(long allowedMin, @Nullable Long doneMin, long nowMin, String state) {
        Instant done = doneMin == null ? null : minute(doneMin);

        assertThat(DeadlineState.of(minute(0), Duration.ofMinutes(allowedMin), done, minute(nowMin))
                        .code())
                .isEqualTo(state);
    }

    @Test
    void hasNoIntervalWhenAnEndWasNotRecorded() {
        FactValue missing = new FactValue.Missing(AbsentReason.INPUT_MISSING);

        assertThat(Interval.ifBoth(null, minute(1))).isEqualTo(missing);
        assertThat(Interval.ifBoth(minute(1), null)).isEqualTo(missing);
        assertThat(Interval.ifBoth(minute(1), minute(4))).isEqualTo(Interval.between(minute(1), minute(4)));
    }

    @Test
    void isStableSinceTheLastDisturbance() {
        assertThat(StableSince.of(minute(9), List.of())).isEqualTo(minute(9));
        assertThat(StableSince.of(minute(9), List.of(minute(80), minute(30)))).isEqualTo(minute(80));
        assertThat(StableSince.of(minute(9), List.of(minute(5)))).isEqualTo(minute(9));
    }

    // Common practice, no source: 6 h in place and 12 h stable.
    @ParameterizedTest
    @CsvSource({"9, 729", "80, 800"})
    void mayBeLetDownWhenLongEnoughInPlaceAndStable(long stableSinceMin, long earliestMin) {
        assertThat(EasingStart.of(minute(0), Duration.ofHours(6), minute(stableSinceMin), Duration.ofHours(12)))
                .isEqualTo(minute(earliestMin));
    }

    @Test
    void theMinimumDwellMayBeTheLonger() {
        assertThat(EasingStart.of(minute(0), Duration.ofHours(6), minute(9), Duration.ofHours(1)))
                .isEqualTo(minute(360));
    }

    // Common practice, no source: 30 min empty before removal, the retention chamber emptied last.
    @ParameterizedTest
    @CsvSource({
        "10, 40, 0, ''",
        "10, 39, 0, watched-too-short",
        ", 40, 0, tamponade-chamber-not-empty",
        "10, 40, 60, retention-chamber-not-empty",
        "10, 39, 60, watched-too-short retention-chamber-not-empty"
    })
    void namesWhatSpeaksAgainstRemoval(
            @Nullable Long emptySinceMin, long removedMin, BigDecimal retentionMl, String concerns) {
        Instant emptySince = emptySinceMin == null ? null : minute(emptySinceMin);

        List<RemovalConcern> found =
                RemovalConcern.of(emptySince, minute(removedMin), Duration.ofMinutes(30), retentionMl);

        assertThat(String.join(" ", found.stream().map(RemovalConcern::code).toList()))
                .isEqualTo(concerns);
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
