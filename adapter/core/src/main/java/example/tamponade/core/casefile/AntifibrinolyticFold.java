package example.tamponade.core.casefile;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.MedicineWindow;
import example.tamponade.core.derivation.SecondDose;
import example.tamponade.core.protocol.Setting;
import java.time.OffsetDateTime;
import java.util.List;

/** The doses of the antifibrinolytic: the first in its window, the second when bleeding goes on or begins again. */
final class AntifibrinolyticFold {

    private AntifibrinolyticFold() {}

    static void given(FoldStep step) {
        Progress.Mark first = step.progress.mark(Milestone.ANTIFIBRINOLYTIC);
        if (first == null) {
            first(step);
        } else if (!step.medicines.secondAntifibrinolytic()) {
            second(first, step);
        }
    }

    private static void first(FoldStep step) {
        OffsetDateTime from = counted(step.at(), step).plus(step.duration(Setting.ANTIFIBRINOLYTIC_SECOND_AFTER));
        step.derive(
                FactKind.ANTIFIBRINOLYTIC_SECOND_DOSE_FROM,
                new FactValue.Time(from),
                List.of(step.reading(Reading.EVENT)));
        Progress.Mark birth = step.progress.mark(Milestone.BIRTH);
        boolean late = birth != null
                && !step.at().isBefore(birth.at())
                && !MedicineWindow.holds(
                        birth.at().toInstant(), step.at().toInstant(), step.duration(Setting.ANTIFIBRINOLYTIC_WINDOW));
        if (late) {
            step.raise(
                    FlagKind.ANTIFIBRINOLYTIC_LATE,
                    "",
                    Severity.MODERATE,
                    "The first dose of tranexamic acid was begun after its window.",
                    "antifibrinolytic-window: "
                            + step.value(Setting.ANTIFIBRINOLYTIC_WINDOW).toPlainString() + " h after birth",
                    step.reading(Reading.EVENT));
        }
    }

    private static void second(Progress.Mark first, FoldStep step) {
        step.medicines = step.medicines.withSecondAntifibrinolytic();
        step.end(FlagKind.ANTIFIBRINOLYTIC_SECOND_DUE, "");
        if (step.at().toInstant().isBefore(window(first, step).earliest())) {
            step.raise(
                    FlagKind.ANTIFIBRINOLYTIC_SECOND_TOO_EARLY,
                    "",
                    Severity.MODERATE,
                    "The second dose of tranexamic acid was given too soon after the first.",
                    rule(step),
                    step.reading(Reading.EVENT));
        }
    }

    /** A check of the bleeding: what was active before the wait is over, and was not seen to stop, goes on. */
    static void bleeding(boolean active, FoldStep step) {
        Progress.Mark first = step.progress.mark(Milestone.ANTIFIBRINOLYTIC);
        if (first == null || step.medicines.secondAntifibrinolytic() || step.closed()) {
            return;
        }
        if (!active) {
            step.end(FlagKind.ANTIFIBRINOLYTIC_SECOND_DUE, "");
            return;
        }
        SecondDose.Window window = window(first, step);
        if (step.at().toInstant().isAfter(window.latest())) {
            return;
        }
        OffsetDateTime earliest = window.earliest().atOffset(step.at().getOffset());
        if (step.at().isBefore(earliest)) {
            step.await(secondDue(earliest, step));
        } else {
            step.raise(secondDue(step.at(), step));
        }
    }

    private static Flag secondDue(OffsetDateTime from, FoldStep step) {
        return step.flag(
                FlagKind.ANTIFIBRINOLYTIC_SECOND_DUE,
                "",
                Severity.MODERATE,
                from,
                "Bleeding goes on or has begun again: a second dose of tranexamic acid may be given, and none is on"
                        + " record.",
                rule(step),
                step.reading(Reading.BLEEDING_AMOUNT));
    }

    private static String rule(FoldStep step) {
        return "antifibrinolytic-second-after: "
                + step.value(Setting.ANTIFIBRINOLYTIC_SECOND_AFTER).toPlainString()
                + " min, antifibrinolytic-second-within: "
                + step.value(Setting.ANTIFIBRINOLYTIC_SECOND_WITHIN).toPlainString() + " h";
    }

    private static SecondDose.Window window(Progress.Mark first, FoldStep step) {
        return SecondDose.after(
                counted(first.at(), step).toInstant(),
                step.duration(Setting.ANTIFIBRINOLYTIC_SECOND_AFTER),
                step.duration(Setting.ANTIFIBRINOLYTIC_SECOND_WITHIN));
    }

    // From which time on after the first dose the times to the second count.
    private static OffsetDateTime counted(OffsetDateTime begin, FoldStep step) {
        return begin.plus(step.duration(Setting.ANTIFIBRINOLYTIC_FIRST_DOSE_LASTS));
    }
}
