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
import org.junit.jupiter.params.provider.CsvSource;

class LossRateTest {

    private static final Instant BEGIN =
            OffsetDateTime.parse("2026-02-11T23:50:00+05:45").toInstant();

    // 180, 130 and 240 mL after 10, 20 and 40 min. Arithmetic: what lies after the begin of the window and up to its
    // end.
    @ParameterizedTest
    @CsvSource({
        "20, 15, 310.0, 1240",
        "25, 15, 130.0, 520",
        "40, 15, 240.0, 960",
        "40, 60, 550.0, 550",
        "55, 15, 0.0, 0",
        "70, 60, 370.0, 370"
    })
    void dividesWhatWasLostInTheWindowByItsHours(long untilMin, long windowMin, BigDecimal lostMl, BigDecimal rate) {
        List<TimedVolume> losses = List.of(lost(40, 240), lost(10, 180), lost(20, 130));
        Duration window = Duration.ofMinutes(windowMin);

        FactValue.Amount inWindow = TrailingVolume.of(losses, BEGIN.plus(Duration.ofMinutes(untilMin)), window);

        assertThat(inWindow.rounded()).isEqualTo(lostMl);
        assertThat(amount(LossRate.of(inWindow.value(), window)).rounded()).isEqualTo(rate);
    }

    @Test
    void hasNoRateWithoutTime() {
        assertThat(LossRate.of(BigDecimal.TEN, Duration.ZERO))
                .isEqualTo(new FactValue.Missing(AbsentReason.DIVISOR_ZERO));
    }

    private static TimedVolume lost(long minute, long volumeMl) {
        return new TimedVolume(BEGIN.plus(Duration.ofMinutes(minute)), BigDecimal.valueOf(volumeMl));
    }
}
