package example.tamponade.core.casefile;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.NetBloodLoss;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.LossReading;
import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** How a reading of blood loss changes what was lost so far. */
final class BloodLossFold {

    private static final int SCALE = 1;

    private BloodLossFold() {}

    static FoldStep fold(BloodLoss reading, FoldStep step) {
        FactValue.Amount net = net(reading, step.protocol.value(Setting.BLOOD_DENSITY));
        FactKey ofReading = step.derive(FactKind.BLOOD_LOSS_OF_READING, net, List.of(step.reading(Reading.BLOOD_LOSS)));
        doubtSameReadingTwice(reading, net.value(), step);
        if (reading.reading() == LossReading.INCREMENT) {
            total(step.loss.total().add(net.value()), ofReading, step);
        } else {
            runningTotal(reading, net.value(), ofReading, step);
        }
        return step;
    }

    /**
     * The blood in a reading, mL.
     *
     * @param densityGPerMl density of blood, g/mL
     */
    static FactValue.Amount net(BloodLoss reading, BigDecimal densityGPerMl) {
        BigDecimal otherFluidMl = Objects.requireNonNullElse(reading.otherFluidMl(), BigDecimal.ZERO);
        BigDecimal volumeMl = reading.volumeMl();
        if (volumeMl != null) {
            return NetBloodLoss.ofVolume(volumeMl, otherFluidMl);
        }
        return NetBloodLoss.ofWeight(
                Objects.requireNonNull(reading.wetG()),
                Objects.requireNonNull(reading.dryG()),
                densityGPerMl,
                otherFluidMl);
    }

    private static void runningTotal(BloodLoss reading, BigDecimal netMl, FactKey ofReading, FoldStep step) {
        String collector = collector(reading);
        BigDecimal heldMl = step.loss.collectors().getOrDefault(collector, BigDecimal.ZERO);
        if (netMl.compareTo(heldMl) < 0) {
            step.doubt(
                    IssueKind.RUNNING_TOTAL_FELL,
                    Severity.MODERATE,
                    "",
                    collector + " fell from " + heldMl.stripTrailingZeros().toPlainString() + " to "
                            + netMl.stripTrailingZeros().toPlainString()
                            + " mL and was not marked as emptied; the higher value is kept",
                    step.reading(Reading.BLOOD_LOSS));
        }
        BigDecimal keptMl = netMl.max(heldMl);
        boolean emptied = Boolean.TRUE.equals(reading.emptied());
        LossState loss = step.loss;
        step.loss = loss.holding(
                emptied ? loss.collectors().minus(collector) : loss.collectors().plus(collector, keptMl));
        total(loss.total().add(keptMl).subtract(heldMl), ofReading, step);
    }

    private static void total(BigDecimal totalMl, FactKey ofReading, FoldStep step) {
        List<FactInput> inputs = new ArrayList<>();
        FactKey before = step.loss.lastFact();
        if (before != null) {
            inputs.add(new FactInput.OfFact(before));
        }
        inputs.add(new FactInput.OfFact(ofReading));
        FactKey total = step.derive(FactKind.CUMULATIVE_BLOOD_LOSS, new FactValue.Amount(totalMl, "mL", SCALE), inputs);
        LossState.Total reached = new LossState.Total(step.at().toInstant(), totalMl, total);
        FluidFold.lost(totalMl.subtract(step.loss.total()), total, step);
        step.loss = step.loss.total(totalMl, LossRates.keep(reached, step));
        LossRates.derive(step);
        SeverityFold.fold(total, step);
    }

    private static void doubtSameReadingTwice(BloodLoss reading, BigDecimal netMl, FoldStep step) {
        LossState.LastReading now = new LossState.LastReading(
                step.at().toInstant().truncatedTo(ChronoUnit.MINUTES), collector(reading), netMl);
        if (sameBlood(now, step.loss.lastReading())) {
            step.doubt(
                    IssueKind.SAME_READING_TWICE,
                    Severity.MODERATE,
                    "",
                    "two collectors were read in one minute with "
                            + netMl.stripTrailingZeros().toPlainString()
                            + " mL each; make sure that the same blood is not counted twice",
                    step.reading(Reading.BLOOD_LOSS));
        }
        step.loss = step.loss.reading(now);
    }

    private static boolean sameBlood(LossState.LastReading now, LossState.@Nullable LastReading before) {
        return before != null
                && before.minute().equals(now.minute())
                && !before.collector().equals(now.collector())
                && before.volumeMl().compareTo(now.volumeMl()) == 0
                && now.volumeMl().signum() > 0;
    }

    private static String collector(BloodLoss reading) {
        return reading.method().code() + (reading.collector() == null ? "" : " " + reading.collector());
    }
}
