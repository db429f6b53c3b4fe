package example.tamponade.core.derivation;

import static example.tamponade.core.derivation.Figures.amount;
import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class MedicinesTest {

    private static final Duration WINDOW = Duration.ofHours(3);

    @ParameterizedTest
    @CsvFileSource(resources = "/published/medicines/antifibrinolytic-window.csv", numLinesToSkip = 1)
    void tellsWhetherADoseWasInTime(
            String row,
            OffsetDateTime birth,
            OffsetDateTime given,
            boolean inside,
            BigDecimal minutes,
            BigDecimal left) {
        Instant born = birth.toInstant();

        assertThat(MedicineWindow.holds(born, given.toInstant(), WINDOW)).isEqualTo(inside);
        assertThat(MedicineWindow.left(born, given.toInstant(), WINDOW).rounded())
                .isEqualTo(left);
        assertThat(Interval.between(born, given.toInstant()).rounded()).isEqualTo(minutes);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/medicines/slow-injection.csv", numLinesToSkip = 1)
    void countsTheSecondDoseFromTheBeginOfTheFirst(
            int row,
            OffsetDateTime begin,
            BigDecimal milligramsPerMl,
            BigDecimal volumeMl,
            BigDecimal rateMlPerH,
            BigDecimal doseMg,
            OffsetDateTime end,
            OffsetDateTime secondFrom,
            OffsetDateTime secondUntil) {
        Instant first = begin.toInstant();

        assertThat(amount(InfusionDose.given(milligramsPerMl, "mg", BigDecimal.ONE, volumeMl))
                        .rounded())
                .isEqualTo(doseMg);
        assertThat(EndOfInfusion.of(first, volumeMl, rateMlPerH)).isEqualTo(end.toInstant());
        assertThat(SecondDose.after(first, Duration.ofMinutes(30), Duration.ofHours(24)))
                .isEqualTo(new SecondDose.Window(secondFrom.toInstant(), secondUntil.toInstant()));
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/medicines/infusion.csv", numLinesToSkip = 1)
    void reckonsAnInfusion(
            int row,
            BigDecimal bagDose,
            String unit,
            BigDecimal bagMl,
            BigDecimal rateMlPerH,
            BigDecimal minutes,
            BigDecimal dosePerHour,
            BigDecimal volumeMl,
            BigDecimal doseGiven) {
        FactValue.Amount volume = InfusionVolume.of(rateMlPerH, Figures.minutes(minutes));
        FactValue.Amount perHour = amount(InfusionDose.perHour(bagDose, unit, bagMl, rateMlPerH));
        FactValue.Amount given = amount(InfusionDose.given(bagDose, unit, bagMl, volume.value()));

        assertThat(volume.rounded()).isEqualTo(volumeMl);
        assertThat(perHour.rounded()).isEqualTo(dosePerHour);
        assertThat(perHour.unit()).isEqualTo("[iU]/h");
        assertThat(given.rounded()).isEqualTo(doseGiven);
        assertThat(given.unit()).isEqualTo("[iU]");
    }

    // 10 mL at 7 mL/h take 5142.86 s. Arithmetic.
    @Test
    void anInfusionEndsOnAWholeSecond() {
        assertThat(EndOfInfusion.of(Instant.EPOCH, BigDecimal.TEN, new BigDecimal(7)))
                .isEqualTo(Instant.EPOCH.plusSeconds(5143));
    }

    @Test
    void anInfusionThatDoesNotRunNeverEnds() {
        assertThat(EndOfInfusion.of(Instant.EPOCH, BigDecimal.TEN, BigDecimal.ZERO))
                .isNull();
    }

    @Test
    void hasNoDoseWithoutABag() {
        assertThat(InfusionDose.perHour(BigDecimal.TEN, "[iU]", BigDecimal.ZERO, BigDecimal.ONE))
                .isEqualTo(new FactValue.Missing(AbsentReason.DIVISOR_ZERO));
    }

    @Test
    void addsTheDosesOfAMedicine() {
        assertThat(MedicineTotal.of(List.of(new BigDecimal(10), new BigDecimal(40)), "[iU]"))
                .isEqualTo(new FactValue.Amount(new BigDecimal(50), "[iU]", 0));
        assertThat(MedicineTotal.of(List.of(), "ug").rounded()).isEqualTo("0");
    }
}
