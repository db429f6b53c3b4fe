package example.tamponade.core.derivation;

import static example.tamponade.core.derivation.Figures.amount;
import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class HaemorrhageCriterionTest {

    private static final List<SignRule> ABNORMAL = Published.rules("/published/consolidated-2025/abnormal-signs.csv");

    @ParameterizedTest
    @CsvFileSource(resources = "/published/consolidated-2025/criterion.csv", numLinesToSkip = 1)
    void isMetByAVolumeOrByALowerVolumeWithASign(
            String row,
            BigDecimal lostMl,
            BigDecimal pulse,
            BigDecimal systolic,
            BigDecimal diastolic,
            BigDecimal shockIndex,
            BigDecimal meanArterialPressure,
            String signs,
            String criterion) {
        FactValue.Amount index = amount(ShockIndex.of(pulse, systolic));
        Map<Sign, BigDecimal> values = Map.of(
                Sign.PULSE, pulse, Sign.SHOCK_INDEX, index.value(), Sign.SYSTOLIC, systolic, Sign.DIASTOLIC, diastolic);

        List<FiredSign> abnormal = EarlyWarning.fired(new Readings(values, Set.of()), ABNORMAL);

        assertThat(index.rounded()).isEqualTo(shockIndex);
        assertThat(MeanArterialPressure.of(systolic, diastolic).rounded()).isEqualTo(meanArterialPressure);
        assertThat(Published.signs(abnormal)).isEqualTo(signs);
        assertThat(HaemorrhageCriterion.of(lostMl, abnormal, new BigDecimal(300), new BigDecimal(500))
                        .code())
                .isEqualTo(criterion);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/acog/definition.csv", numLinesToSkip = 1)
    void holdsTheDefinitionOfAcogToo(BigDecimal lostMl, boolean hypovolaemia, String criterion) {
        List<FiredSign> signs =
                hypovolaemia ? List.of(new FiredSign(new SignRule.Seen(Sign.PRESSURE_UNRECORDABLE), null)) : List.of();

        assertThat(HaemorrhageCriterion.of(lostMl, signs, BigDecimal.ZERO, new BigDecimal(1000))
                        .code())
                .isEqualTo(criterion);
    }
}
