package example.tamponade.core.derivation;

import static example.tamponade.core.derivation.Figures.amount;
import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;

class ReadinessTest {

    private static final LocalDate FIRST = LocalDate.of(2026, 2, 1);
    private static final int SPEAKS_FOR_DAYS = 7;

    @Test
    void aCheckSpeaksUntilTheNext() {
        List<ReadinessShare.Checked> checks = List.of(ready(1, null), lacking(4), ready(6, null));

        assertThat(share(checks, 1, 10)).isEqualTo("80.0");
    }

    @Test
    void aCheckSpeaksForItsDaysOnly() {
        assertThat(share(List.of(ready(1, null)), 1, 10)).isEqualTo("70.0");
    }

    @Test
    void daysBeforeTheFirstCheckWereNotReady() {
        assertThat(share(List.of(ready(6, null)), 1, 10)).isEqualTo("50.0");
    }

    @Test
    void theSetMayBeUsedOnTheDayItExpires() {
        assertThat(share(List.of(ready(1, day(3))), 1, 4)).isEqualTo("75.0");
    }

    @Test
    void theLaterOfTwoChecksOnOneDayCounts() {
        assertThat(share(List.of(ready(1, null), lacking(1)), 1, 2)).isEqualTo("0.0");
        assertThat(share(List.of(lacking(1), ready(1, null)), 1, 2)).isEqualTo("100.0");
    }

    @Test
    void hasNoShareOfNoDays() {
        assertThat(ReadinessShare.of(List.of(), FIRST, FIRST.minusDays(1), SPEAKS_FOR_DAYS))
                .isEqualTo(new FactValue.Missing(AbsentReason.DIVISOR_ZERO));
    }

    @Test
    void countsTheDaysSinceTheLastCheck() {
        assertThat(DaysSinceCheck.of(LocalDate.of(2026, 2, 27), LocalDate.of(2026, 3, 2)))
                .extracting(FactValue.Amount::rounded)
                .hasToString("3");
    }

    private static String share(List<ReadinessShare.Checked> checks, int from, int to) {
        return amount(ReadinessShare.of(checks, day(from), day(to), SPEAKS_FOR_DAYS))
                .rounded()
                .toPlainString();
    }

    private static ReadinessShare.Checked ready(int day, LocalDate expiry) {
        return new ReadinessShare.Checked(day(day), true, expiry);
    }

    private static ReadinessShare.Checked lacking(int day) {
        return new ReadinessShare.Checked(day(day), false, null);
    }

    private static LocalDate day(int day) {
        return FIRST.plusDays(day - 1L);
    }
}
