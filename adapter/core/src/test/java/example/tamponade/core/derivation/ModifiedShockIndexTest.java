package example.tamponade.core.derivation;

import static example.tamponade.core.derivation.Figures.amount;
import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class ModifiedShockIndexTest {

    @ParameterizedTest
    @CsvFileSource(resources = "/published/haemodynamics/modified-shock-index.csv", numLinesToSkip = 1)
    void reproducesTheWorkedFigures(
            int row, BigDecimal pulse, BigDecimal systolic, BigDecimal diastolic, BigDecimal expected) {
        BigDecimal pressure = MeanArterialPressure.of(systolic, diastolic).value();

        assertThat(amount(ModifiedShockIndex.of(pulse, pressure)).rounded()).isEqualTo(expected);
    }

    @Test
    void hasNoNumberWhenThePressureIsZero() {
        assertThat(ModifiedShockIndex.of(new BigDecimal(120), BigDecimal.ZERO))
                .isEqualTo(new FactValue.Missing(AbsentReason.DIVISOR_ZERO));
    }
}
