package example.tamponade.core.casefile;

import example.tamponade.core.derivation.Completeness;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.protocol.Phase;
import example.tamponade.core.protocol.Setting;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Which checks of the protocol's schedule were done, are due, or were missed. */
final class CheckFold {

    private static final String SIGNS = "signs";
    private static final String BLEEDING = "bleeding";

    private CheckFold() {}

    /** Another schedule holds from now. */
    static void enter(Phase phase, FoldStep step) {
        if (step.closed()) {
            return;
        }
        CheckState before = step.checks;
        step.checks = new CheckState(phase, step.at(), begun(before.signs(), step), begun(before.bleeding(), step));
        await(SIGNS, step.checks.signs(), step);
        await(BLEEDING, step.checks.bleeding(), step);
    }

    // The first schedule counts from its begin; later ones from the latest check.
    private static CheckState.Round begun(CheckState.Round round, FoldStep step) {
        return round.last() == null ? new CheckState.Round(round.done(), round.missed(), step.at()) : round;
    }

    static void signsChecked(FoldStep step) {
        CheckState checks = step.checks;
        if (checks.phase() != null && !step.closed()) {
            CheckState.Round round = done(checks.signs(), step);
            step.checks = new CheckState(checks.phase(), checks.phaseSince(), round, checks.bleeding());
            report(SIGNS, round, Reading.BLOOD_PRESSURE, step);
        }
    }

    static void bleedingChecked(FoldStep step) {
        CheckState checks = step.checks;
        if (checks.phase() != null && !step.closed()) {
            CheckState.Round round = done(checks.bleeding(), step);
            step.checks = new CheckState(checks.phase(), checks.phaseSince(), checks.signs(), round);
            step.end(FlagKind.CHECK_MISSED, BLEEDING);
            await(BLEEDING, round, step);
        }
    }

    // Every whole interval that went by without a check, beyond the one that this check belongs to, was missed.
    private static CheckState.Round done(CheckState.Round round, FoldStep step) {
        Duration every = every(step);
        Duration late = Duration.between(round.last(), step.at()).minus(step.duration(Setting.CHECK_GRACE));
        long missed = late.compareTo(every) <= 0 ? 0 : late.minusNanos(1).dividedBy(every);
        return new CheckState.Round(round.done() + 1, round.missed() + missed, step.at());
    }

    private static void report(String part, CheckState.Round round, Reading reading, FoldStep step) {
        step.end(FlagKind.CHECK_MISSED, part);
        await(part, round, step);
        OffsetDateTime due = due(round, step);
        List<FactInput> inputs = List.of(step.reading(reading));
        if (due != null) {
            step.derive(FactKind.NEXT_CHECK_DUE, new FactValue.Time(due), inputs);
        }
        step.derive(
                FactKind.CHECKS_COMPLETENESS,
                Completeness.of(Math.toIntExact(round.done()), Math.toIntExact(round.done() + round.missed())),
                inputs);
    }

    private static void await(String part, CheckState.Round round, FoldStep step) {
        OffsetDateTime due = due(round, step);
        if (due != null) {
            step.await(
                    FlagKind.CHECK_MISSED,
                    part,
                    due.plus(step.duration(Setting.CHECK_GRACE)),
                    Severity.MODERATE,
                    part.equals(SIGNS)
                            ? "Pulse and pressure were due and are not on record."
                            : "A check of the bleeding was due and is not on record.",
                    "schedule: every " + every(step).toMinutes() + " min, check-grace: "
                            + step.value(Setting.CHECK_GRACE).toPlainString() + " min",
                    step.reading(Reading.EVENT));
        }
    }

    private static @Nullable OffsetDateTime due(CheckState.Round round, FoldStep step) {
        return round.last() == null ? null : round.last().plus(every(step));
    }

    private static Duration every(FoldStep step) {
        CheckState checks = step.checks;
        if (checks.phase() == null || checks.phaseSince() == null) {
            throw new IllegalStateException("no schedule holds before the haemorrhage is recognised");
        }
        return step.protocol.schedule().every(checks.phase(), Duration.between(checks.phaseSince(), step.at()));
    }
}
