package example.tamponade.core.casefile;

import example.tamponade.core.derivation.TimeInSitu;
import example.tamponade.core.event.BalloonPosition;
import example.tamponade.core.event.Chamber;
import example.tamponade.core.event.RemovalReason;
import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.event.TamponadePositionChecked;
import example.tamponade.core.event.TamponadeRemoved;
import example.tamponade.core.protocol.Phase;
import example.tamponade.core.protocol.Setting;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** How a device comes into place and out of it. Each insertion is a tamponade of its own, with its own timers. */
final class TamponadeFold {

    private TamponadeFold() {}

    static FoldStep inserted(TamponadeInserted insertion, FoldStep step) {
        Tamponade tamponade =
                Tamponade.inserted(step.event, step.at(), insertion.device().capacityMl());
        step.tamponades = step.tamponades.plus(tamponade);
        step.end(FlagKind.BALLOON_DISPLACED, "");
        PreparationFold.inserted(insertion, step);
        InsertionLossFold.inserted(step);
        fundusBase(step);
        Milestones.reach(Milestone.INSERTED, step);
        FirstResponseFold.sumUp(step);
        awaitControl(step);
        awaitDwellLimit(tamponade, step);
        return step;
    }

    private static void fundusBase(FoldStep step) {
        Tamponade tamponade = step.last();
        if (tamponade != null && step.fundusCm != null) {
            step.replaceLast(tamponade.with(tamponade.course().fundus(step.fundusCm, false)));
        }
    }

    private static void awaitControl(FoldStep step) {
        step.await(
                FlagKind.CONTROL_DEADLINE_MISSED,
                "",
                step.at().plus(step.duration(Setting.CONTROL_DEADLINE)),
                Severity.HIGH,
                "Bleeding is not controlled: refer now with the balloon in place, look for another source and check"
                        + " the position.",
                "control-deadline: " + step.value(Setting.CONTROL_DEADLINE).toPlainString() + " min after insertion",
                step.reading(Reading.TAMPONADE));
    }

    /** Sets the timers of the longest time in place, counted from the insertion. */
    static void awaitDwellLimit(Tamponade tamponade, FoldStep step) {
        FactInput insertion = new FactInput.OfEvent(tamponade.insertion(), Reading.TAMPONADE);
        OffsetDateTime limit = tamponade.insertedAt().plus(step.duration(Setting.MAXIMUM_DWELL));
        String rule = "maximum-dwell: " + step.value(Setting.MAXIMUM_DWELL).toPlainString() + " h";
        step.await(
                FlagKind.DWELL_LIMIT_NEAR,
                "",
                limit.minus(step.duration(Setting.DWELL_WARNING_BEFORE)),
                Severity.MODERATE,
                "The longest time in place will soon be reached.",
                rule,
                insertion);
        step.await(
                FlagKind.DWELL_LIMIT_PASSED,
                "",
                limit,
                Severity.HIGH,
                "The balloon has been in place longer than the protocol allows.",
                rule,
                insertion);
        step.replaces(FlagKind.DWELL_LIMIT_PASSED, FlagKind.DWELL_LIMIT_NEAR);
    }

    static FoldStep checked(TamponadePositionChecked check, FoldStep step) {
        Tamponade tamponade = inPlaceOrDoubt(step, Reading.EVENT);
        if (tamponade == null) {
            return step;
        }
        if (check.position() == BalloonPosition.IN_THE_UTERUS) {
            step.end(FlagKind.BALLOON_DISPLACED, "");
            step.end(FlagKind.POSITION_NOT_CONFIRMED, "");
            return step;
        }
        displaced(check.position().code(), step);
        step.end(FlagKind.POSITION_NOT_CONFIRMED, "", FlagEndReason.SUPERSEDED);
        if (check.position() == BalloonPosition.EXPELLED) {
            // The warning stands: nothing holds the bleeding now.
            out(tamponade, Reading.EVENT, step);
        }
        return step;
    }

    static FoldStep removed(TamponadeRemoved removal, FoldStep step) {
        Tamponade tamponade = inPlaceOrDoubt(step, Reading.TAMPONADE_REMOVAL);
        if (tamponade != null) {
            flagRemoval(removal.reason(), tamponade, step);
            out(tamponade, Reading.TAMPONADE_REMOVAL, step);
        }
        if (removal.reason() == RemovalReason.EXPELLED) {
            displaced(removal.reason().code(), step);
        } else if (tamponade != null || removal.reason() == RemovalReason.SURGERY) {
            step.end(FlagKind.BALLOON_DISPLACED, "", FlagEndReason.NO_LONGER_OBSERVED);
        }
        return step;
    }

    // Stands, when it was expelled, until the next insertion, removal for surgery or hand-over.
    private static void displaced(String position, FoldStep step) {
        step.raise(
                FlagKind.BALLOON_DISPLACED,
                "",
                Severity.HIGH,
                "The balloon is not in the uterus.",
                "position: " + position,
                step.reading(Reading.EVENT));
    }

    private static void out(Tamponade tamponade, Reading reading, FoldStep step) {
        step.replaceLast(tamponade.removed(step.event, step.at()));
        CourseFold.enter(Phase.REMOVED, step);
        InsertionLossFold.out(step);
        List.of(
                        FlagKind.DWELL_LIMIT_NEAR,
                        FlagKind.DWELL_LIMIT_PASSED,
                        FlagKind.PREPARATION_INCOMPLETE,
                        FlagKind.DEVICE_PAST_DATE,
                        FlagKind.POSITION_NOT_CONFIRMED)
                .forEach(it -> step.end(it, ""));
        List.of(FlagKind.CONTROL_DEADLINE_MISSED, FlagKind.DEFLATION_TOO_EARLY, FlagKind.DEFLATION_STEP_TOO_LARGE)
                .forEach(it -> step.end(it, "", FlagEndReason.NO_LONGER_OBSERVED));
        step.derive(
                FactKind.TIME_IN_SITU,
                TimeInSitu.between(tamponade.insertedAt().toInstant(), step.at().toInstant()),
                List.of(new FactInput.OfEvent(tamponade.insertion(), Reading.TAMPONADE), step.reading(reading)),
                null,
                tamponade.insertion());
    }

    // A balloon that failed, was expelled or comes out at surgery is not deflated in steps; only a completed course is
    // measured.
    private static void flagRemoval(RemovalReason reason, Tamponade tamponade, FoldStep step) {
        if (reason != RemovalReason.COMPLETED) {
            return;
        }
        OffsetDateTime empty = tamponade.course().emptySince();
        Duration wait = step.duration(Setting.EMPTY_WAIT);
        if (empty == null || Duration.between(empty, step.at()).compareTo(wait) < 0) {
            step.raise(
                    FlagKind.REMOVAL_TOO_EARLY,
                    "",
                    Severity.MODERATE,
                    empty == null
                            ? "The balloon came out before it had been emptied."
                            : "The balloon came out before it had been empty for the time to wait.",
                    "empty-wait: " + wait.toMinutes() + " min empty without bleeding",
                    step.reading(Reading.TAMPONADE_REMOVAL));
        }
        if (!tamponade.empty(Chamber.RETENTION)) {
            step.raise(
                    FlagKind.RETENTION_NOT_EMPTIED,
                    "",
                    Severity.MODERATE,
                    "The balloon came out while the retention chamber still held fluid.",
                    "the retention chamber is emptied last, before removal",
                    step.reading(Reading.TAMPONADE_REMOVAL));
        }
    }

    static @Nullable Tamponade inPlaceOrDoubt(FoldStep step, Reading reading) {
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
}
