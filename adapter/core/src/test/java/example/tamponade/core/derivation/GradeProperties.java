package example.tamponade.core.derivation;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.BigRange;
import net.jqwik.api.constraints.Scale;

class GradeProperties {

    private static final BigDecimal FIRST = new BigDecimal(500);
    private static final BigDecimal SECOND = new BigDecimal(1000);
    private static final BigDecimal THIRD = new BigDecimal(1500);
    private static final BigDecimal FOURTH = new BigDecimal(2000);

    @Property(tries = 500)
    void losingMoreNeverLowersAGrade(
            @ForAll @BigRange(min = "0", max = "3000") @Scale(1) BigDecimal lessMl,
            @ForAll @BigRange(min = "0", max = "1000") @Scale(1) BigDecimal addedMl) {
        assertThat(grades(lessMl.add(addedMl)))
                .zipSatisfy(grades(lessMl), (more, less) -> assertThat(more).isGreaterThanOrEqualTo(less));
    }

    @Property(tries = 200)
    void aFurtherSignNeverLowersATier(@ForAll Set<Sign> signs, @ForAll Sign further) {
        WarningTier.Counting counting = new WarningTier.Counting(2, true);
        List<FiredSign> fewer = fired(signs);
        List<FiredSign> more = new ArrayList<>(fewer);
        more.addAll(fired(Set.of(further)));

        assertThat(WarningTier.of(List.of(), more, counting))
                .isGreaterThanOrEqualTo(WarningTier.of(List.of(), fewer, counting));
        assertThat(WarningTier.of(more, List.of(), counting)).isEqualTo(WarningTier.RED);
    }

    @Property(tries = 200)
    void atAnyReadingALimitAndItsOppositeDisagree(
            @ForAll @BigRange(min = "0", max = "300") @Scale(1) BigDecimal value,
            @ForAll @BigRange(min = "0", max = "300") @Scale(1) BigDecimal limit) {
        assertThat(Comparison.BELOW.holds(value, limit)).isNotEqualTo(Comparison.AT_LEAST.holds(value, limit));
        assertThat(Comparison.ABOVE.holds(value, limit)).isNotEqualTo(Comparison.AT_MOST.holds(value, limit));
    }

    @Property(tries = 200)
    void whatWasNotMeasuredFiresNothing(
            @ForAll Sign sign, @ForAll @BigRange(min = "0", max = "300") @Scale(1) BigDecimal limit) {
        EnumSet<Comparison> all = EnumSet.allOf(Comparison.class);
        List<SignRule> rules = sign.measured()
                ? all.stream()
                        .<SignRule>map(it -> new SignRule.Limit(sign, it, limit))
                        .toList()
                : List.of(new SignRule.Seen(sign));

        assertThat(EarlyWarning.fired(new Readings(Map.of(), Set.of()), rules)).isEmpty();
    }

    private static List<Integer> grades(BigDecimal lostMl) {
        return List.of(
                AtlsClass.of(lostMl, new AtlsClass.Bounds(FIRST, SECOND, THIRD)).ordinal(),
                RcogGrade.of(lostMl, new RcogGrade.Bounds(FIRST, SECOND, THIRD)).ordinal(),
                ObstetricShockGrade.of(lostMl, new ObstetricShockGrade.Bounds(FIRST, SECOND, THIRD, FOURTH))
                        .ordinal(),
                HaemorrhageGrade.of(lostMl, FIRST, SECOND).ordinal(),
                HaemorrhageCriterion.of(lostMl, List.of(), FIRST, SECOND).ordinal(),
                HaemorrhageCriterion.of(lostMl, fired(Set.of(Sign.NURSE_CONCERN)), FIRST, SECOND)
                        .ordinal());
    }

    private static List<FiredSign> fired(Set<Sign> signs) {
        return signs.stream().map(GradeProperties::fired).toList();
    }

    private static FiredSign fired(Sign sign) {
        SignRule rule =
                sign.measured() ? new SignRule.Limit(sign, Comparison.ABOVE, BigDecimal.ZERO) : new SignRule.Seen(sign);
        return new FiredSign(rule, sign.measured() ? BigDecimal.ONE : null);
    }
}
