package example.tamponade.core.casefile;

import example.tamponade.core.derivation.EndOfInfusion;
import example.tamponade.core.event.Infusion;
import example.tamponade.core.event.Substance;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * Infusions: what has run in is the rate by the time, line by line, from one record of the line to the next; never more than
 * the bag held.
 */
final class InfusionFold {

    private InfusionFold() {}

    static FoldStep set(Infusion infusion, FoldStep step) {
        if (runOn(step)) {
            FluidFold.balance(step);
        }
        RunningInfusion before = step.medicines.infusions().get(infusion.line());
        RunningInfusion now = before == null
                ? RunningInfusion.first(infusion, step.event, step.at())
                : before.recordedAnew(infusion, step.event, step.at());
        step.medicines = step.medicines.with(now);
        boolean begunBefore =
                before != null && before.begun() && before.infusion().bag() == infusion.bag();
        if (infusion.runs() && !begunBefore) {
            MedicineFold.begun(infusion.substance(), step);
        }
        watch(now, step);
        return step;
    }

    /**
     * Counts what has run in up to this event.
     *
     * @return whether anything has
     */
    static boolean runOn(FoldStep step) {
        boolean any = false;
        for (RunningInfusion one : byLine(step).values()) {
            BigDecimal ranMl = one.runsInTo(step.at());
            if (ranMl.signum() > 0) {
                any = true;
                step.medicines = step.medicines.with(one.countedTo(step.at(), ranMl));
                FactInput by = new FactInput.OfEvent(one.event(), Reading.EVENT);
                FluidFold.add(ranMl, by, step);
                MedicineFold.ranIn(one.infusion(), ranMl, by, step);
            }
        }
        return any;
    }

    private static Map<Integer, RunningInfusion> byLine(FoldStep step) {
        return new TreeMap<>(step.medicines.infusions());
    }

    // A single dose that has run in is finished; a uterotonic and a fluid are meant to go on.
    private static void watch(RunningInfusion now, FoldStep step) {
        Infusion infusion = now.infusion();
        String line = String.valueOf(infusion.line());
        step.end(FlagKind.INFUSION_RUN_OUT, line);
        Severity severity = severity(infusion.substance());
        Instant empty = EndOfInfusion.of(step.at().toInstant(), now.leftMl(), infusion.rateMlPerHour());
        if (severity != null && empty != null && !step.closed()) {
            step.await(
                    FlagKind.INFUSION_RUN_OUT,
                    line,
                    empty.atOffset(step.at().getOffset()),
                    severity,
                    "The bag on line " + line + " is empty at the rate on record, and nothing newer is on record.",
                    "what the bag holds divided by its rate",
                    step.reading(Reading.EVENT));
        }
    }

    private static @Nullable Severity severity(Substance substance) {
        if (MedicineFold.uterotonic(substance)) {
            return Severity.MODERATE;
        }
        return substance == Substance.CRYSTALLOID ? Severity.LOW : null;
    }
}
