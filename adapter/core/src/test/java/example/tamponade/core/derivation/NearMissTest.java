package example.tamponade.core.derivation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.EnumSource;

class NearMissTest {

    private static final List<NearMiss.Criterion> CRITERIA =
            Published.criteria("/published/who-near-miss/criteria.csv");
    private static final BigDecimal LOW_SYSTOLIC = new BigDecimal(90);
    private static final BigDecimal LOW_URINE = new BigDecimal(30);

    @ParameterizedTest
    @CsvFileSource(resources = "/published/who-near-miss/edges.csv", numLinesToSkip = 1)
    void isMetAtTheEdges(String row, String readings, String met) {
        assertThat(met(Published.readings(readings))).isEqualTo(met);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/who-near-miss/shock.csv", numLinesToSkip = 1)
    void shockNeedsLowPressureThatLastsAndPulseAndFluid(
            String row, String systolicByMinute, BigDecimal pulse, BigDecimal fluidMl, boolean met) {
        List<SustainedTime.Observed> low = Published.byMinute(systolicByMinute).entrySet().stream()
                .map(it -> new SustainedTime.Observed(
                        it.getKey().toInstant(), Comparison.BELOW.holds(it.getValue(), LOW_SYSTOLIC)))
                .toList();
        Map<Sign, BigDecimal> values = Map.of(
                Sign.LOW_SYSTOLIC_TIME, SustainedTime.of(low).value(), Sign.PULSE, pulse, Sign.FLUID_GIVEN, fluidMl);

        assertThat(met(new Readings(values, Set.of()))).isEqualTo(met ? "shock" : "none");
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/who-near-miss/oliguria.csv", numLinesToSkip = 1)
    void oliguriaIsFourHoursOfLowUrine(
            String row, String hourlyMl, BigDecimal totalMl, BigDecimal lowMin, boolean met) {
        List<UrineCollection> collections = Published.hourly(hourlyMl);
        FactValue.Amount low = LowUrineTime.below(collections, LOW_URINE, Duration.ofMinutes(5));
        FactValue.Amount total = FluidBalance.of(
                collections.stream().map(UrineCollection::volumeMl).toList(), List.of());

        assertThat(total.rounded()).isEqualTo(totalMl);
        assertThat(low.rounded()).isEqualTo(lowMin);
        assertThat(met(new Readings(Map.of(Sign.LOW_URINE_TIME, low.value()), Set.of())))
                .isEqualTo(met ? "oliguria" : "none");
    }

    // Each criterion that the adapter watches is the published one; creatinine, bilirubin and pH are not recorded.
    @ParameterizedTest
    @EnumSource(NearMissCriterion.class)
    void watchesThePublishedCriterion(NearMissCriterion criterion) {
        assertThat(CRITERIA)
                .filteredOn(it -> it.code().equals(criterion.code()))
                .singleElement()
                .satisfies(it -> assertThat(it.rules()).isEqualTo(criterion.rules()));
    }

    @Test
    void keepsTheReadingsThatMetACriterion() {
        Readings readings = Published.readings("low-systolic-time=60 pulse=122 fluid-given=2500");

        assertThat(NearMiss.met(readings, CRITERIA))
                .singleElement()
                .satisfies(it -> assertThat(it.fired())
                        .extracting(FiredSign::sign)
                        .containsExactly(Sign.LOW_SYSTOLIC_TIME, Sign.PULSE, Sign.FLUID_GIVEN));
    }

    @Test
    void refusesACriterionWithoutRules() {
        assertThrows(IllegalArgumentException.class, () -> new NearMiss.Criterion("shock", List.of()));
    }

    private static String met(Readings readings) {
        List<NearMiss.Met> met = NearMiss.met(readings, CRITERIA);
        return met.isEmpty()
                ? "none"
                : met.stream().map(it -> it.criterion().code()).collect(Collectors.joining(" "));
    }
}
