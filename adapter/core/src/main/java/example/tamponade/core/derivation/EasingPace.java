package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.List;

/**
 * Is a balloon let down slowly enough? What was let out within one watching interval must not be more than a step, unless a
 * whole step was already watched for that long: then the rest may come out at once, if the protocol allows it.
 *
 * <p>A drain exactly one watching interval ago no longer counts. Bleeding ends the easing, so that the drains given begin
 * after it.
 *
 * <p>Source: common practice, no source.
 */
public enum EasingPace implements Coded {
    /** Not more than a step. */
    WITHIN_STEP,
    /** More than a step, after a step that was watched. */
    REST_AT_ONCE,
    /** More than a step, and no step was watched. */
    TOO_FAST;

    /**
     * How a balloon is let down; from the care protocol.
     *
     * @param stepFromMl smallest volume that is a whole step, mL
     * @param stepToMl largest volume of a step, mL
     * @param watch how long to watch after a step
     * @param gap how far apart two drains must lie to be two steps
     * @param stepsAllTheWay whether the rest must come out in steps too
     */
    public record Limits(
            BigDecimal stepFromMl, BigDecimal stepToMl, Duration watch, Duration gap, boolean stepsAllTheWay) {}

    /**
     * The pace up to a time.
     *
     * @param drains drains of the chamber since this easing began, in any order
     * @param at the time; later drains do not count
     * @param limits how a balloon is let down
     */
    public static EasingPace of(Collection<TimedVolume> drains, Instant at, Limits limits) {
        BigDecimal recentMl = TrailingVolume.of(drains, at, limits.watch()).value();
        if (recentMl.compareTo(limits.stepToMl()) <= 0) {
            return WITHIN_STEP;
        }
        return !limits.stepsAllTheWay() && stepWatched(drains, at, limits) ? REST_AT_ONCE : TOO_FAST;
    }

    private static boolean stepWatched(Collection<TimedVolume> drains, Instant at, Limits limits) {
        List<DrainSteps.Step> steps =
                DrainSteps.of(drains.stream().filter(it -> !it.at().isAfter(at)).toList(), limits.gap());
        for (int i = 1; i < steps.size(); i++) {
            DrainSteps.Step step = steps.get(i - 1);
            Instant watchedUntil = step.end().plus(limits.watch());
            if (step.volumeMl().compareTo(limits.stepFromMl()) >= 0
                    && !steps.get(i).begin().isBefore(watchedUntil)) {
                return true;
            }
        }
        return false;
    }
}
