package example.tamponade.core.derivation;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class WarningTierTest {

    private static final String SHIELDS_NON_SEVERE = "/published/shields-2016/non-severe.csv";
    private static final String MEOWS_YELLOW = "/published/meows/yellow.csv";
    private static final List<SignRule> SEVERE = Published.rules("/published/shields-2016/severe.csv");
    private static final List<SignRule> NON_SEVERE = Published.rules(SHIELDS_NON_SEVERE);
    private static final List<SignRule> RED = Published.rules("/published/meows/red.csv");
    private static final List<SignRule> YELLOW = Published.rules(MEOWS_YELLOW);
    private static final WarningTier.Counting SHIELDS = new WarningTier.Counting(2, true);
    private static final WarningTier.Counting MEOWS = new WarningTier.Counting(2, false);

    @ParameterizedTest
    @CsvFileSource(resources = "/published/shields-2016/edges.csv", numLinesToSkip = 1)
    void takesOneSevereOrTwoNonSevere(String readings, String tier) {
        assertThat(tier(Published.readings(readings), SEVERE, NON_SEVERE, SHIELDS))
                .isEqualTo(tier);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/meows/worked-figures.csv", numLinesToSkip = 1)
    void takesOneRedOrTwoYellow(String row, String readings, String tier) {
        assertThat(tier(Published.readings(readings), RED, YELLOW, MEOWS)).isEqualTo(tier);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/shields-2016/sustained.csv", numLinesToSkip = 1)
    void aSevereSignMustLast(String pulseByMinute, BigDecimal lastedMin, boolean fires) {
        List<SustainedTime.Observed> observed = Published.byMinute(pulseByMinute).entrySet().stream()
                .map(it -> new SustainedTime.Observed(
                        it.getKey().toInstant(),
                        !EarlyWarning.fired(Published.readings("pulse=" + it.getValue()), SEVERE)
                                .isEmpty()))
                .toList();

        FactValue.Amount lasted = SustainedTime.of(observed);

        assertThat(lasted.rounded()).isEqualTo(lastedMin);
        assertThat(Comparison.ABOVE.holds(lasted.value(), new BigDecimal(20))).isEqualTo(fires);
    }

    @Test
    void leavesOutOnlyWhatIsNotRecordedAfterABirth() {
        assertThat(Published.notUsed(SHIELDS_NON_SEVERE)).containsExactly("fetal-heart-rate");
        assertThat(Published.notUsed(MEOWS_YELLOW)).containsExactly("pain-score");
        assertThat(Sign.values()).extracting(Sign::code).doesNotContain("fetal-heart-rate", "pain-score");
    }

    private static String tier(
            Readings readings, List<SignRule> red, List<SignRule> yellow, WarningTier.Counting counting) {
        return WarningTier.of(EarlyWarning.fired(readings, red), EarlyWarning.fired(readings, yellow), counting)
                .code();
    }
}
