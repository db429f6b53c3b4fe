package example.tamponade.core.casefile;

import example.tamponade.core.derivation.Completeness;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.protocol.Phase;
import example.tamponade.core.protocol.Setting;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Which checks of the protocol's schedule were done, are due, or were missed. */
final class CheckFold {

    private CheckFold() {}

    /** Another schedule holds from now. */
    static void enter(Phase phase, FoldStep step) {
        if (step.closed()) {
            return;
        }
        CheckState before = step.checks;
        step.checks = new CheckState(
                phase,
                step.at(),
                begun(missed(before.signs(), step), step),
                begun(missed(before.bleeding(), step), step));
        watch(step);
    }

    // The first schedule counts from its begin; later ones from the latest check.
    private static CheckState.Round begun(CheckState.Round round, FoldStep step) {
        return round.last() == null ? new CheckState.Round(round.done(), round.missed(), false, step.at()) : round;
    }

    static void signsChecked(FoldStep step) {
        CheckState checks = step.checks;
        if (checks.phase() != null && !step.closed() && pairedAnew(step)) {
            CheckState.Round round = done(checks.signs(), step);
            step.checks = new CheckState(checks.phase(), checks.phaseSince(), round, missed(checks.bleeding(), step));
            watch(step);
            report(round, step);
        }
    }

    static void bleedingChecked(FoldStep step) {
        CheckState checks = step.checks;
        if (checks.phase() != null && !step.closed()) {
            CheckState.Round round = done(checks.bleeding(), step);
            step.checks = new CheckState(checks.phase(), checks.phaseSince(), missed(checks.signs(), step), round);
            watch(step);
        }
    }

    // Pulse and pressure that make a pair are one check, be they in one event or in two; each counts for one pair only.
    private static boolean pairedAnew(FoldStep step) {
        VitalsState.Last pulse = step.vitals.pulse();
        VitalsState.Last pressure = step.vitals.pressure();
        if (pulse == null || pressure == null) {
            return false;
        }
        Instant earlier = pulse.at().isBefore(pressure.at()) ? pulse.at() : pressure.at();
        Instant later = step.at().toInstant();
        boolean near = Duration.between(earlier, later).compareTo(step.duration(Setting.PAIRING_WINDOW)) <= 0;
        boolean together = pulse.event().equals(pressure.event());
        OffsetDateTime last = step.checks.signs().last();
        return together || near && (last == null || earlier.isAfter(last.toInstant()));
    }

    /** How complete the checks are when the case ends or is handed over, whether or not one was ever done. */
    static void sumUp(FoldStep step) {
        CheckState checks = step.checks;
        if (checks.phase() != null) {
            CheckState.Round signs = missed(checks.signs(), step);
            step.checks = new CheckState(checks.phase(), checks.phaseSince(), signs, missed(checks.bleeding(), step));
            completeness(signs, Reading.EVENT, step);
        }
    }

    private static CheckState.Round done(CheckState.Round round, FoldStep step) {
        CheckState.Round now = missed(round, step);
        return new CheckState.Round(now.done() + 1, now.missed(), false, step.at());
    }

    // Each check that was due and not done within its grace, by the interval that held when it was due.
    private static CheckState.Round missed(CheckState.Round round, FoldStep step) {
        CheckState.Round now = round;
        Duration grace = step.duration(Setting.CHECK_GRACE);
        OffsetDateTime due = due(now, step);
        while (due != null && due.plus(grace).isBefore(step.at())) {
            now = steady(due, step)
                    ? now.missedAt(due, every(due, step), step.at().minus(grace))
                    : now.missedAt(due);
            due = due(now, step);
        }
        return now;
    }

    private static void report(CheckState.Round signs, FoldStep step) {
        OffsetDateTime due = due(signs, step);
        if (due != null) {
            step.derive(
                    FactKind.NEXT_CHECK_DUE, new FactValue.Time(due), List.of(step.reading(Reading.BLOOD_PRESSURE)));
        }
        completeness(signs, Reading.BLOOD_PRESSURE, step);
    }

    private static void completeness(CheckState.Round round, Reading reading, FoldStep step) {
        step.derive(
                FactKind.CHECKS_COMPLETENESS,
                Completeness.of(Math.toIntExact(round.done()), Math.toIntExact(round.done() + round.missed())),
                List.of(step.reading(reading)));
    }

    // One warning for the round: it begins with the first check that is missed and stands until none is.
    private static void watch(FoldStep step) {
        if (!step.checks.signs().owed() && !step.checks.bleeding().owed()) {
            step.end(FlagKind.CHECK_MISSED, "");
        }
        OffsetDateTime first = earlier(due(step.checks.signs(), step), due(step.checks.bleeding(), step));
        if (first != null) {
            step.await(
                    FlagKind.CHECK_MISSED,
                    "",
                    first.plus(step.duration(Setting.CHECK_GRACE)),
                    Severity.MODERATE,
                    "Checks were due and are not on record: pulse and pressure, bleeding, or both.",
                    "schedule: every " + every(step.at(), step).toMinutes() + " min, check-grace: "
                            + step.value(Setting.CHECK_GRACE).toPlainString() + " min",
                    step.reading(Reading.EVENT));
        }
    }

    private static @Nullable OffsetDateTime earlier(@Nullable OffsetDateTime one, @Nullable OffsetDateTime other) {
        if (one == null || other == null) {
            return one == null ? other : one;
        }
        return one.isBefore(other) ? one : other;
    }

    private static @Nullable OffsetDateTime due(CheckState.Round round, FoldStep step) {
        return round.last() == null ? null : round.last().plus(every(round.last(), step));
    }

    private static boolean steady(OffsetDateTime from, FoldStep step) {
        CheckState checks = step.checks;
        return checks.phase() != null
                && checks.phaseSince() != null
                && step.protocol.schedule().steady(checks.phase(), Duration.between(checks.phaseSince(), from));
    }

    private static Duration every(OffsetDateTime from, FoldStep step) {
        CheckState checks = step.checks;
        if (checks.phase() == null || checks.phaseSince() == null) {
            throw new IllegalStateException("no schedule holds before the haemorrhage is recognised");
        }
        Duration inPhase = Duration.between(checks.phaseSince(), from);
        return step.protocol.schedule().every(checks.phase(), inPhase.isNegative() ? Duration.ZERO : inPhase);
    }
}
