package example.tamponade.core.casefile;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.protocol.DeflationCompletion;
import example.tamponade.core.protocol.Phase;
import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.pcollections.PVector;

/** How the balloon is deflated: steps, what was let out within the watching time, and whether it began in time. */
final class DeflationFold {

    private DeflationFold() {}

    /** The first drain while the balloon holds: flagged, not refused, when it comes before its time. */
    static void begin(Tamponade tamponade, FoldStep step) {
        if (!StabilityFold.deflationMayBegin(tamponade, step)) {
            step.raise(
                    FlagKind.DEFLATION_TOO_EARLY,
                    "",
                    Severity.MODERATE,
                    "Deflation began before the protocol's conditions were met.",
                    StabilityFold.conditions(step),
                    step.reading(Reading.BALLOON_VOLUME_CHANGE));
        }
    }

    static void drained(BigDecimal volumeMl, FoldStep step) {
        Tamponade tamponade = step.inPlace();
        if (tamponade == null || tamponade.phase() != Phase.DEFLATION) {
            return;
        }
        Course course = tamponade.course();
        boolean newStep = startsStep(course.step(), step);
        boolean watched = course.stepWatched() || wasWatched(course, step);
        Course.Step now = step(newStep ? null : course.step(), volumeMl, tamponade, step);
        PVector<Course.Drain> recent = recent(course.drains(), volumeMl, now.fact(), step);
        step.replaceLast(tamponade.with(course.stepped(recent, now, newStep, watched)));
        BigDecimal letOutMl = letOut(recent, tamponade, step);
        flagStep(letOutMl, watched, step);
    }

    private static boolean startsStep(Course.@Nullable Step before, FoldStep step) {
        return before == null
                || Duration.between(before.lastDrain(), step.at()).compareTo(step.duration(Setting.STEP_GAP)) >= 0;
    }

    // Watched: the watching time is over and a check within it saw no active bleeding.
    private static boolean wasWatched(Course course, FoldStep step) {
        return course.step() != null
                && course.quietSinceStep()
                && Duration.between(course.step().lastDrain(), step.at()).compareTo(step.duration(Setting.STEP_WATCH))
                        >= 0;
    }

    private static Course.Step step(
            Course.@Nullable Step before, BigDecimal volumeMl, Tamponade tamponade, FoldStep step) {
        List<FactInput> inputs = new ArrayList<>();
        if (before != null) {
            inputs.add(new FactInput.OfFact(before.fact()));
        }
        inputs.add(step.reading(Reading.BALLOON_VOLUME_CHANGE));
        BigDecimal stepMl = before == null ? volumeMl : before.volumeMl().add(volumeMl);
        FactKey fact = step.derive(
                FactKind.DEFLATION_STEP_VOLUME,
                new FactValue.Amount(stepMl, "mL", BalloonFold.SCALE),
                inputs,
                null,
                tamponade.insertion());
        return new Course.Step(step.at(), stepMl, fact);
    }

    private static PVector<Course.Drain> recent(
            PVector<Course.Drain> before, BigDecimal volumeMl, FactKey fact, FoldStep step) {
        OffsetDateTime begin = step.at().minus(step.duration(Setting.STEP_WATCH));
        PVector<Course.Drain> recent = before;
        while (!recent.isEmpty() && !recent.get(0).at().isAfter(begin)) {
            recent = recent.minus(0);
        }
        return recent.plus(new Course.Drain(step.at(), volumeMl, fact));
    }

    private static BigDecimal letOut(PVector<Course.Drain> recent, Tamponade tamponade, FoldStep step) {
        BigDecimal letOutMl = recent.stream().map(Course.Drain::volumeMl).reduce(BigDecimal.ZERO, BigDecimal::add);
        step.derive(
                FactKind.VOLUME_LET_OUT_IN_WATCH,
                new FactValue.Amount(letOutMl, "mL", BalloonFold.SCALE),
                recent.stream()
                        .map(it -> (FactInput) new FactInput.OfFact(it.fact()))
                        .distinct()
                        .toList(),
                null,
                tamponade.insertion());
        return letOutMl;
    }

    private static void flagStep(BigDecimal letOutMl, boolean watched, FoldStep step) {
        BigDecimal mostMl = step.value(Setting.STEP_MAXIMUM);
        boolean restMayFollow = watched && step.protocol.deflationCompletion() == DeflationCompletion.REST_AT_ONCE;
        if (letOutMl.compareTo(mostMl) <= 0) {
            step.end(FlagKind.DEFLATION_STEP_TOO_LARGE, "");
        } else if (!restMayFollow) {
            step.raise(
                    FlagKind.DEFLATION_STEP_TOO_LARGE,
                    "",
                    Severity.MODERATE,
                    "More was let out within the watching time than one step allows.",
                    "step-maximum: " + mostMl.toPlainString() + " mL within step-watch: "
                            + step.value(Setting.STEP_WATCH).toPlainString() + " min",
                    step.reading(Reading.BALLOON_VOLUME_CHANGE));
        }
    }
}
