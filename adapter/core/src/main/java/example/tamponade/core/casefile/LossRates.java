package example.tamponade.core.casefile;

import example.tamponade.core.derivation.AbsentReason;
import example.tamponade.core.derivation.LossRate;
import example.tamponade.core.protocol.Setting;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.pcollections.PVector;

/** How fast blood is being lost: totals compared across a window. */
final class LossRates {

    private LossRates() {}

    /** The totals with a new one; those that no window reaches back to any more are let go. */
    static PVector<LossState.Total> keep(LossState.Total reached, FoldStep step) {
        Instant begin = reached.at().minus(step.duration(Setting.LOSS_RATE_LONG_WINDOW));
        PVector<LossState.Total> totals = step.loss.totals();
        int last = totals.size() - 1;
        // Of one instant there is one total, that after all of its readings.
        totals = last >= 0 && totals.get(last).at().equals(reached.at())
                ? totals.with(last, reached)
                : totals.plus(reached);
        while (totals.size() > 1 && !totals.get(1).at().isAfter(begin)) {
            totals = totals.minus(0);
        }
        return totals;
    }

    static void derive(FoldStep step) {
        rate(FactKind.BLOOD_LOSS_RATE_SHORT, step.duration(Setting.LOSS_RATE_SHORT_WINDOW), step);
        rate(FactKind.BLOOD_LOSS_RATE_LONG, step.duration(Setting.LOSS_RATE_LONG_WINDOW), step);
    }

    private static void rate(FactKind kind, Duration window, FoldStep step) {
        PVector<LossState.Total> totals = step.loss.totals();
        LossState.Total now = totals.get(totals.size() - 1);
        if (totals.size() == 1) {
            step.deriveAbsent(kind, AbsentReason.FIRST_READING, new FactInput.OfFact(now.fact()));
            return;
        }
        LossState.Total before = lastBefore(now.at().minus(window), totals);
        // What the first reading held was lost over a time that nobody knows.
        LossState.Total base = before == null ? totals.get(0) : before;
        Duration over = before == null ? Duration.between(base.at(), now.at()) : window;
        if (over.isZero()) {
            step.deriveAbsent(kind, AbsentReason.FIRST_READING, new FactInput.OfFact(now.fact()));
            return;
        }
        step.derive(
                kind,
                LossRate.of(now.volumeMl().subtract(base.volumeMl()), over),
                List.of(new FactInput.OfFact(base.fact()), new FactInput.OfFact(now.fact())));
    }

    private static LossState.@Nullable Total lastBefore(Instant begin, PVector<LossState.Total> totals) {
        LossState.Total last = null;
        for (LossState.Total total : totals) {
            if (total.at().isAfter(begin)) {
                break;
            }
            last = total;
        }
        return last;
    }
}
