package example.tamponade.core.derivation;

import static example.tamponade.core.derivation.Figures.amount;
import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class VisualUnderestimateTest {

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "/published/visual-estimates/under-estimates.csv", numLinesToSkip = 1)
    void reproducesThePublishedShares(String source, BigDecimal seenMl, BigDecimal lossMl, BigDecimal missedPercent) {
        BigDecimal share =
                amount(VisualUnderestimate.missedShare(seenMl, lossMl)).value();

        assertThat(amount(VisualUnderestimate.missedShare(seenMl, lossMl)).rounded())
                .isEqualTo(missedPercent);
        assertThat(amount(VisualUnderestimate.possibleLoss(seenMl, share)).rounded())
                .isEqualTo(lossMl);
    }

    @Test
    void hasNoNumberWhenEverythingIsMissed() {
        FactValue missing = new FactValue.Missing(AbsentReason.DIVISOR_ZERO);

        assertThat(VisualUnderestimate.possibleLoss(BigDecimal.TEN, new BigDecimal(100)))
                .isEqualTo(missing);
        assertThat(VisualUnderestimate.missedShare(BigDecimal.TEN, BigDecimal.ZERO))
                .isEqualTo(missing);
    }
}
