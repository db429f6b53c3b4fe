package example.tamponade.core.casefile;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.TimeInSitu;
import example.tamponade.core.event.BalloonDrained;
import example.tamponade.core.event.BalloonFilled;
import example.tamponade.core.event.Chamber;
import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.event.TamponadePositionChecked;
import example.tamponade.core.event.TamponadeRemoved;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What becomes of a device from insertion to removal. Each insertion is a tamponade of its own. */
final class TamponadeFold {

    private static final int SCALE = 1;

    private TamponadeFold() {}

    static FoldStep inserted(TamponadeInserted insertion, FoldStep step) {
        step.tamponades = step.tamponades.plus(
                Tamponade.inserted(step.event, step.at(), insertion.device().capacityMl()));
        return step;
    }

    static FoldStep filled(BalloonFilled filling, FoldStep step) {
        return moved(filling.chamber(), filling.volumeMl(), step);
    }

    static FoldStep drained(BalloonDrained draining, FoldStep step) {
        return moved(draining.chamber(), draining.volumeMl().negate(), step);
    }

    static FoldStep checked(TamponadePositionChecked check, FoldStep step) {
        inPlaceOrDoubt(step, Reading.EVENT);
        return step;
    }

    static FoldStep removed(TamponadeRemoved removal, FoldStep step) {
        Tamponade tamponade = inPlaceOrDoubt(step, Reading.TAMPONADE_REMOVAL);
        if (tamponade != null) {
            step.replaceLast(tamponade.removed(step.event, step.at()));
            step.derive(
                    FactKind.TIME_IN_SITU,
                    TimeInSitu.between(
                            tamponade.insertedAt().toInstant(), step.at().toInstant()),
                    List.of(
                            new FactInput.OfEvent(tamponade.insertion(), Reading.TAMPONADE),
                            step.reading(Reading.TAMPONADE_REMOVAL)),
                    null,
                    tamponade.insertion());
        }
        return step;
    }

    private static FoldStep moved(Chamber chamber, BigDecimal changeMl, FoldStep step) {
        Tamponade tamponade = inPlaceOrDoubt(step, Reading.BALLOON_VOLUME_CHANGE);
        if (tamponade == null) {
            return step;
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
        return step;
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

    private static @Nullable Tamponade inPlaceOrDoubt(FoldStep step, Reading reading) {
        Tamponade tamponade = step.inPlace();
        if (tamponade == null) {
            step.doubt(
                    IssueKind.NO_DEVICE_IN_PLACE,
                    Severity.MODERATE,
                    "",
                    "no device was in place at this time; record its insertion or correct the time",
                    step.reading(reading));
        }
        return tamponade;
    }

    private static FactKind kind(Chamber chamber) {
        return switch (chamber) {
            case TAMPONADE -> FactKind.TAMPONADE_CHAMBER_VOLUME;
            case RETENTION -> FactKind.RETENTION_CHAMBER_VOLUME;
        };
    }
}
