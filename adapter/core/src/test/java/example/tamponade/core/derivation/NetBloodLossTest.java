package example.tamponade.core.derivation;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class NetBloodLossTest {

    @ParameterizedTest
    @CsvFileSource(resources = "/published/blood-loss/worked-figures.csv", numLinesToSkip = 1)
    void reproducesTheWorkedFigures(BigDecimal wetG, BigDecimal dryG, BigDecimal density, BigDecimal expectedMl) {
        assertThat(NetBloodLoss.ofWeight(wetG, dryG, density, BigDecimal.ZERO).rounded())
                .isEqualTo(expectedMl);
    }

    // Caesarean canister 900 mL, amniotic fluid 350 mL and irrigation 100 mL: ACOG Committee Opinion 794, 2019.
    @Test
    void takesOtherFluidOff() {
        assertThat(NetBloodLoss.ofVolume(new BigDecimal(900), new BigDecimal(450))
                        .rounded())
                .isEqualTo("450.0");
    }
}
