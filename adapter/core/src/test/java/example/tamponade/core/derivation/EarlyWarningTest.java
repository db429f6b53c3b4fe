package example.tamponade.core.derivation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import example.tamponade.core.event.Consciousness;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

class EarlyWarningTest {

    private static final List<SignRule> CRITERIA = Published.rules("/published/mhyre-2014/criteria.csv");

    @ParameterizedTest
    @CsvFileSource(resources = "/published/mhyre-2014/edges.csv", numLinesToSkip = 1)
    void firesBeyondTheEdgesOnly(String readings, String fired) {
        assertThat(Published.signs(EarlyWarning.fired(Published.readings(readings), CRITERIA)))
                .isEqualTo(fired);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/mhyre-2014/low-urine.csv", numLinesToSkip = 1)
    void firesWhenUrineHasBeenLowForTwoHours(String hourlyMl, BigDecimal lowMin, boolean fires) {
        FactValue.Amount low =
                LowUrineTime.below(Published.hourly(hourlyMl), new BigDecimal(35), Duration.ofMinutes(5));
        Readings readings = Published.readings("low-urine-time=" + low.value());

        assertThat(low.rounded()).isEqualTo(lowMin);
        assertThat(EarlyWarning.fired(readings, CRITERIA)).hasSize(fires ? 1 : 0);
    }

    @Test
    void keepsTheReadingThatFiredAndSaysTheRule() {
        List<FiredSign> fired = EarlyWarning.fired(Published.readings("systolic=88 not-alert"), CRITERIA);

        assertThat(fired).extracting(FiredSign::reading).containsExactly(new BigDecimal(88), null);
        assertThat(fired).extracting(it -> it.rule().text()).containsExactly("systolic < 90 mm[Hg]", "not-alert");
    }

    @ParameterizedTest
    @CsvSource({
        "below, 89, true",
        "below, 90, false",
        "at-most, 90, true",
        "at-most, 91, false",
        "above, 91, true",
        "above, 90, false",
        "at-least, 90, true",
        "at-least, 89, false"
    })
    void comparesAsTheRuleIsWritten(String comparison, BigDecimal value, boolean holds) {
        assertThat(Figures.coded(Comparison.values(), comparison).holds(value, new BigDecimal(90)))
                .isEqualTo(holds);
    }

    @Test
    void readsTheLevelOfConsciousness() {
        assertThat(Sign.of(Consciousness.A)).isEmpty();
        assertThat(Sign.of(Consciousness.V)).containsExactly(Sign.NOT_ALERT);
        assertThat(Sign.of(Consciousness.P)).containsExactly(Sign.NOT_ALERT, Sign.NO_RESPONSE_TO_VOICE);
        assertThat(Sign.of(Consciousness.U)).containsExactly(Sign.NOT_ALERT, Sign.NO_RESPONSE_TO_VOICE);
    }

    @Test
    void refusesALimitForASignThatHasNone() {
        assertThrows(
                IllegalArgumentException.class,
                () -> new SignRule.Limit(Sign.NURSE_CONCERN, Comparison.ABOVE, BigDecimal.ONE));
        assertThrows(IllegalArgumentException.class, () -> new SignRule.Seen(Sign.PULSE));
    }
}
