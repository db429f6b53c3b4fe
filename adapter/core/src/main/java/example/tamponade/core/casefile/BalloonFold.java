package example.tamponade.core.casefile;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.event.BalloonDrained;
import example.tamponade.core.event.BalloonFilled;
import example.tamponade.core.event.Chamber;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What the chambers of the device in place hold. */
final class BalloonFold {

    static final int SCALE = 1;

    private BalloonFold() {}

    static FoldStep filled(BalloonFilled filling, FoldStep step) {
        moved(filling.chamber(), filling.volumeMl(), step);
        if (filling.chamber() == Chamber.TAMPONADE) {
            CourseFold.filled(step);
        }
        return step;
    }

    static FoldStep drained(BalloonDrained draining, FoldStep step) {
        moved(draining.chamber(), draining.volumeMl().negate(), step);
        if (draining.chamber() == Chamber.TAMPONADE) {
            CourseFold.drained(step, draining.volumeMl());
        }
        return step;
    }

    private static void moved(Chamber chamber, BigDecimal changeMl, FoldStep step) {
        Tamponade tamponade = TamponadeFold.inPlaceOrDoubt(step, Reading.BALLOON_VOLUME_CHANGE);
        if (tamponade == null) {
            return;
        }
        BigDecimal volumeMl = tamponade.volumeMl(chamber).add(changeMl);
        doubtVolume(chamber, volumeMl, tamponade, step);
        BigDecimal heldMl = volumeMl.max(BigDecimal.ZERO);
        FactKey fact = step.derive(
                kind(chamber),
                new FactValue.Amount(heldMl, "mL", SCALE),
                inputs(tamponade.volumeFact(chamber), step),
                null,
                tamponade.insertion());
        step.replaceLast(tamponade.holding(chamber, heldMl, fact));
    }

    private static List<FactInput> inputs(@Nullable FactKey before, FoldStep step) {
        List<FactInput> inputs = new ArrayList<>();
        if (before != null) {
            inputs.add(new FactInput.OfFact(before));
        }
        inputs.add(step.reading(Reading.BALLOON_VOLUME_CHANGE));
        return inputs;
    }

    private static void doubtVolume(Chamber chamber, BigDecimal volumeMl, Tamponade tamponade, FoldStep step) {
        if (volumeMl.signum() < 0) {
            step.doubt(
                    IssueKind.DRAINED_MORE_THAN_HELD,
                    Severity.MODERATE,
                    "",
                    "the " + chamber.code() + " chamber held "
                            + tamponade.volumeMl(chamber).toPlainString() + " mL, "
                            + volumeMl.negate().toPlainString()
                            + " mL less than was let out; it counts as empty",
                    step.reading(Reading.BALLOON_VOLUME_CHANGE));
        }
        BigDecimal capacityMl = tamponade.capacityMl();
        if (chamber == Chamber.TAMPONADE && capacityMl != null && volumeMl.compareTo(capacityMl) > 0) {
            step.doubt(
                    IssueKind.OVER_CAPACITY,
                    Severity.HIGH,
                    "",
                    "the tamponade chamber holds " + volumeMl.toPlainString() + " mL, above its capacity of "
                            + capacityMl.toPlainString() + " mL",
                    step.reading(Reading.BALLOON_VOLUME_CHANGE));
        }
    }

    private static FactKind kind(Chamber chamber) {
        return switch (chamber) {
            case TAMPONADE -> FactKind.TAMPONADE_CHAMBER_VOLUME;
            case RETENTION -> FactKind.RETENTION_CHAMBER_VOLUME;
        };
    }
}
