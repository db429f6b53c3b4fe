package example.tamponade.core.casefile;

import example.tamponade.core.derivation.AbsentReason;
import example.tamponade.core.derivation.Interval;
import java.util.List;

/** Notes the first time each milestone is reached, and the audit intervals that it completes. */
final class Milestones {

    private Milestones() {}

    static void reach(Milestone milestone, FoldStep step) {
        if (step.progress.mark(milestone) != null) {
            return;
        }
        step.progress = step.progress.reached(milestone, new Progress.Mark(step.event, step.at()));
        for (AuditInterval interval : AuditInterval.values()) {
            if (interval.to == milestone) {
                measure(interval, step);
            }
        }
    }

    private static void measure(AuditInterval interval, FoldStep step) {
        Progress.Mark from = step.progress.mark(interval.from);
        if (from == null) {
            step.deriveAbsent(interval.kind, AbsentReason.BEGIN_MISSING, step.reading(Reading.EVENT));
            return;
        }
        step.derive(
                interval.kind,
                Interval.between(from.at().toInstant(), step.at().toInstant()),
                List.of(new FactInput.OfEvent(from.event(), Reading.EVENT), step.reading(Reading.EVENT)));
    }
}
