package example.tamponade.core.derivation;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class EstimatedBloodVolumeTest {

    @ParameterizedTest
    @CsvFileSource(resources = "/published/blood-volume/nadler-women.csv", numLinesToSkip = 1)
    void takesNadlersFormulaForWomenNotForMen(
            BigDecimal heightCm, BigDecimal weightKg, BigDecimal womenMl, BigDecimal menMl) {
        assertThat(EstimatedBloodVolume.nadlerWomen(heightCm, weightKg).rounded())
                .isEqualTo(womenMl)
                .isNotEqualTo(menMl);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/blood-volume/by-weight.csv", numLinesToSkip = 1)
    void multipliesWeightByTheProtocolsVolume(BigDecimal weightKg, BigDecimal millilitresPerKg, BigDecimal expectedMl) {
        assertThat(EstimatedBloodVolume.ofWeight(weightKg, millilitresPerKg).rounded())
                .isEqualTo(expectedMl);
    }
}
