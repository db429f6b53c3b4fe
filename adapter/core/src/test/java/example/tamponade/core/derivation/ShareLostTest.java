package example.tamponade.core.derivation;

import static example.tamponade.core.derivation.Figures.amount;
import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class ShareLostTest {

    @ParameterizedTest
    @CsvFileSource(resources = "/published/blood-volume/share-lost.csv", numLinesToSkip = 1)
    void reproducesTheWorkedFigures(int row, BigDecimal lostMl, BigDecimal bloodVolumeMl, BigDecimal expected) {
        assertThat(amount(ShareLost.of(lostMl, bloodVolumeMl)).rounded()).isEqualTo(expected);
    }

    @Test
    void hasNoNumberWithoutABloodVolume() {
        assertThat(ShareLost.of(new BigDecimal(500), BigDecimal.ZERO))
                .isEqualTo(new FactValue.Missing(AbsentReason.DIVISOR_ZERO));
    }
}
