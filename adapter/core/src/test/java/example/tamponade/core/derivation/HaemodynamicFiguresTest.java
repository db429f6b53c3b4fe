package example.tamponade.core.derivation;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.protocol.CareProtocol;
import java.math.BigDecimal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class HaemodynamicFiguresTest {

    @ParameterizedTest
    @CsvFileSource(resources = "/published/haemodynamics/worked-figures.csv", numLinesToSkip = 1)
    void reproducesTheWorkedFigures(
            int row,
            BigDecimal pulse,
            BigDecimal systolic,
            BigDecimal diastolic,
            BigDecimal shockIndex,
            BigDecimal meanArterialPressure,
            BigDecimal pulsePressure,
            String band) {
        FactValue.Amount index = (FactValue.Amount) ShockIndex.of(pulse, systolic);

        assertThat(index.rounded()).isEqualTo(shockIndex);
        assertThat(MeanArterialPressure.of(systolic, diastolic).rounded()).isEqualTo(meanArterialPressure);
        assertThat(PulsePressure.of(systolic, diastolic).rounded()).isEqualTo(pulsePressure);
        assertThat(CareProtocol.standard().shockIndexBands().of(index.value()).code())
                .isEqualTo(band);
    }

    // Ratio of medians, not median of ratios: 81/120 = 0.675 is a rounding tie that binary floating point gets wrong.
    @Test
    void keepsTheUnroundedDecimalForThresholds() {
        FactValue.Amount index = (FactValue.Amount) ShockIndex.of(new BigDecimal(81), new BigDecimal(120));

        assertThat(index.value()).isEqualByComparingTo("0.675");
    }

    @Test
    void hasNoNumberWhenThePressureIsZero() {
        assertThat(ShockIndex.of(new BigDecimal(120), BigDecimal.ZERO))
                .isEqualTo(new FactValue.Missing(AbsentReason.DIVISOR_ZERO));
    }
}
