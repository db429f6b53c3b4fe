package example.tamponade.core.derivation;

import static example.tamponade.core.derivation.Figures.amount;
import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

class UrineTest {

    private static final Instant BEGIN =
            OffsetDateTime.parse("2026-02-11T22:00:00+05:45").toInstant();
    private static final BigDecimal LOW = new BigDecimal(30);
    private static final BigDecimal LOW_BY_WEIGHT = new BigDecimal("0.5");
    private static final Duration GAP = Duration.ofMinutes(5);
    private static final BigDecimal MINUTES_PER_HOUR = new BigDecimal(60);
    private static final UrineStage.Limits KDIGO =
            new UrineStage.Limits(hours("6"), hours("12"), hours("24"), hours("12"));

    @ParameterizedTest
    @CsvFileSource(resources = "/published/urine/worked-figures.csv", numLinesToSkip = 1)
    void reproducesTheWorkedFigures(
            String row,
            BigDecimal volumeMl,
            BigDecimal minutes,
            BigDecimal weightKg,
            BigDecimal mlPerH,
            BigDecimal mlPerKgPerH,
            boolean below30,
            boolean belowHalf) {
        FactValue.Amount rate = amount(UrineRate.perHour(volumeMl, Figures.minutes(minutes)));
        FactValue.Amount byWeight = amount(UrineRate.perKilogramAndHour(volumeMl, Figures.minutes(minutes), weightKg));

        assertThat(rate.value().setScale(mlPerH.scale(), RoundingMode.HALF_UP)).isEqualTo(mlPerH);
        assertThat(rate.rounded().scale()).isEqualTo(1);
        assertThat(byWeight.rounded()).isEqualTo(mlPerKgPerH);
        assertThat(Comparison.BELOW.holds(rate.value(), LOW)).isEqualTo(below30);
        assertThat(Comparison.BELOW.holds(byWeight.value(), LOW_BY_WEIGHT)).isEqualTo(belowHalf);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/urine/limits.csv", numLinesToSkip = 1)
    void givesTheLimitByWeight(BigDecimal weightKg, BigDecimal limitMlPerKgPerH, BigDecimal expectedMlPerH) {
        assertThat(UrineLimit.of(weightKg, limitMlPerKgPerH).rounded()).isEqualTo(expectedMlPerH);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/kdigo-2012/stages.csv", numLinesToSkip = 1)
    void stagesByHowLongUrineWasLow(String row, String lowH, String veryLowH, String withoutUrineH, String stage) {
        assertThat(UrineStage.of(hours(lowH), hours(veryLowH), hours(withoutUrineH), KDIGO)
                        .code())
                .isEqualTo(stage);
    }

    @Test
    void hasNoRateWithoutTimeOrWeight() {
        FactValue missing = new FactValue.Missing(AbsentReason.DIVISOR_ZERO);

        assertThat(UrineRate.perHour(LOW, Duration.ZERO)).isEqualTo(missing);
        assertThat(UrineRate.perKilogramAndHour(LOW, Duration.ofHours(1), BigDecimal.ZERO))
                .isEqualTo(missing);
    }

    // 30, 35 and 50 mL in three hours; of an hour that lies half in the window half counts. Arithmetic.
    @ParameterizedTest
    @CsvSource({"180, 150, 40.0", "180, 60, 50.0", "240, 60, ", "210, 60, 50.0", "-10, 60, "})
    void countsWhatLiesInTheWindow(long untilMin, long windowMin, BigDecimal expected) {
        List<UrineCollection> collections =
                List.of(collection(0, 60, 30), collection(60, 120, 35), collection(120, 180, 50));

        FactValue rate =
                UrineInWindow.of(collections, BEGIN.plus(Duration.ofMinutes(untilMin)), Duration.ofMinutes(windowMin));

        if (expected == null) {
            assertThat(rate).isEqualTo(new FactValue.Missing(AbsentReason.INPUT_MISSING));
        } else {
            assertThat(amount(rate).rounded()).isEqualTo(expected);
        }
    }

    @Test
    void aGapLongerThanAllowedBreaksTheTimeOfLowUrine() {
        UrineCollection first = collection(0, 60, 20);

        assertThat(LowUrineTime.below(List.of(collection(65, 120, 20), first), LOW, GAP)
                        .rounded())
                .isEqualTo("120");
        assertThat(LowUrineTime.below(List.of(collection(66, 120, 20), first), LOW, GAP)
                        .rounded())
                .isEqualTo("54");
    }

    @Test
    void aCollectionWithinAnotherDoesNotShortenTheTime() {
        assertThat(LowUrineTime.below(List.of(collection(0, 120, 20), collection(30, 60, 5)), LOW, GAP)
                        .rounded())
                .isEqualTo("120");
    }

    // 20 mL in 40 min are 30 mL/h exactly; a rate rounded on the way would be below.
    @Test
    void exactlyTheLimitIsNotLow() {
        assertThat(LowUrineTime.below(List.of(collection(0, 40, 20)), LOW, GAP).rounded())
                .isEqualTo("0");
    }

    @Test
    void onlyNoUrineAtAllIsNoUrine() {
        List<UrineCollection> collections =
                List.of(collection(0, 60, 1), collection(60, 120, 0), collection(120, 180, 0));

        assertThat(LowUrineTime.withoutUrine(collections, GAP).rounded()).isEqualTo("120");
        assertThat(LowUrineTime.withoutUrine(List.of(), GAP).rounded()).isEqualTo("0");
    }

    @Test
    void aCollectionWithoutLengthIsLeftOut() {
        List<UrineCollection> collections = List.of(collection(60, 60, 40), collection(0, 60, 20));

        assertThat(LowUrineTime.below(collections, LOW, GAP).rounded()).isEqualTo("60");
        assertThat(amount(UrineInWindow.of(collections, collections.get(0).to(), Duration.ofHours(1)))
                        .rounded())
                .isEqualTo("20.0");
    }

    private static UrineCollection collection(long fromMin, long toMin, long volumeMl) {
        return new UrineCollection(
                BEGIN.plus(Duration.ofMinutes(fromMin)),
                BEGIN.plus(Duration.ofMinutes(toMin)),
                BigDecimal.valueOf(volumeMl));
    }

    private static BigDecimal hours(String hours) {
        return new BigDecimal(hours).multiply(MINUTES_PER_HOUR);
    }
}
