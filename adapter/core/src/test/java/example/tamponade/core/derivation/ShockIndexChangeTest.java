package example.tamponade.core.derivation;

import static example.tamponade.core.derivation.Figures.amount;
import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class ShockIndexChangeTest {

    @ParameterizedTest
    @CsvFileSource(resources = "/published/haemodynamics/shock-index-change.csv", numLinesToSkip = 1)
    void aRiseIsPositiveContraryToCelikkan(
            BigDecimal firstPulse,
            BigDecimal firstSystolic,
            BigDecimal laterPulse,
            BigDecimal laterSystolic,
            BigDecimal change,
            BigDecimal celikkan) {
        BigDecimal first = amount(ShockIndex.of(firstPulse, firstSystolic)).value();
        BigDecimal later = amount(ShockIndex.of(laterPulse, laterSystolic)).value();

        assertThat(ShockIndexChange.of(first, later).rounded()).isEqualTo(change);
        assertThat(ShockIndexChange.of(later, first).rounded()).isEqualTo(celikkan);
    }
}
