package example.tamponade.core.derivation;

import static example.tamponade.core.derivation.Figures.amount;
import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class PostpartumMediansTest {

    @ParameterizedTest(name = "{0} {1}")
    @CsvFileSource(resources = "/published/haemodynamics/postpartum-medians.csv", numLinesToSkip = 1)
    void agreesWithThePublishedMediansWhereItCan(
            String source,
            String quantity,
            BigDecimal pulse,
            BigDecimal systolic,
            BigDecimal diastolic,
            BigDecimal published,
            String notMetBecause) {
        FactValue value = switch (quantity) {
            case "shock-index" -> ShockIndex.of(pulse, systolic);
            case "mean-arterial-pressure" -> MeanArterialPressure.of(systolic, diastolic);
            default -> throw new IllegalArgumentException(quantity);
        };

        BigDecimal ours = amount(value).value().setScale(published.scale(), RoundingMode.HALF_UP);

        assertThat(ours.equals(published)).isEqualTo(notMetBecause == null);
    }
}
