package example.tamponade.core.derivation;

import static example.tamponade.core.derivation.Figures.amount;
import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.BigRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Scale;

class RateProperties {

    private static final BigDecimal TWO = new BigDecimal(2);

    @Property(tries = 200)
    void twiceTheVolumeIsTwiceTheRate(
            @ForAll @BigRange(min = "0", max = "5000") @Scale(1) BigDecimal volumeMl,
            @ForAll @IntRange(min = 1, max = 2880) int minutes) {
        Duration time = Duration.ofMinutes(minutes);

        assertSame(rate(volumeMl.multiply(TWO), time), rate(volumeMl, time).multiply(TWO));
    }

    @Property(tries = 200)
    void twiceTheTimeIsHalfTheRate(
            @ForAll @BigRange(min = "0", max = "5000") @Scale(1) BigDecimal volumeMl,
            @ForAll @IntRange(min = 1, max = 2880) int minutes) {
        assertSame(
                rate(volumeMl, Duration.ofMinutes(2L * minutes)).multiply(TWO),
                rate(volumeMl, Duration.ofMinutes(minutes)));
    }

    @Property(tries = 200)
    void whatRunsInAtARateIsThatRate(
            @ForAll @BigRange(min = "1", max = "2000") @Scale(1) BigDecimal rateMlPerH,
            @ForAll @IntRange(min = 1, max = 2880) int minutes) {
        Duration time = Duration.ofMinutes(minutes);

        assertSame(rate(InfusionVolume.of(rateMlPerH, time).value(), time), rateMlPerH);
    }

    @Property(tries = 200)
    void aLossSeenByItsMissedShareIsTheLoss(
            @ForAll @BigRange(min = "1", max = "5000") @Scale(1) BigDecimal lossMl,
            @ForAll @IntRange(min = 0, max = 99) int missedPercent) {
        BigDecimal seenMl = lossMl.multiply(BigDecimal.valueOf(100 - missedPercent, 2));

        assertSame(
                amount(VisualUnderestimate.possibleLoss(seenMl, BigDecimal.valueOf(missedPercent)))
                        .value(),
                lossMl);
        assertSame(amount(VisualUnderestimate.missedShare(seenMl, lossMl)).value(), BigDecimal.valueOf(missedPercent));
    }

    private static BigDecimal rate(BigDecimal volumeMl, Duration time) {
        return amount(LossRate.of(volumeMl, time)).value();
    }

    private static void assertSame(BigDecimal one, BigDecimal other) {
        assertThat(one.setScale(12, RoundingMode.HALF_UP)).isEqualTo(other.setScale(12, RoundingMode.HALF_UP));
    }
}
