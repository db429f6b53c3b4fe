package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;

/**
 * The steps in which a balloon was let down: drains closer together than the gap are one step, one syringe after another.
 * Exactly the gap apart, they are two.
 *
 * <p>Source: common practice, no source.
 */
public final class DrainSteps {

    private DrainSteps() {}

    /**
     * One step.
     *
     * @param begin its first drain
     * @param end its last drain
     * @param volumeMl what was let out in all, mL
     */
    public record Step(Instant begin, Instant end, BigDecimal volumeMl) {

        private Step with(TimedVolume drain) {
            return new Step(begin, drain.at(), volumeMl.add(drain.volumeMl()));
        }
    }

    /**
     * Groups drains into steps, in order of time.
     *
     * @param drains drains of one chamber in any order
     * @param gap how far apart two drains must lie to be two steps, from the care protocol
     */
    public static List<Step> of(Collection<TimedVolume> drains, Duration gap) {
        List<Step> steps = new ArrayList<>();
        drains.stream().sorted(Comparator.comparing(TimedVolume::at)).forEach(it -> add(it, gap, steps));
        return List.copyOf(steps);
    }

    private static void add(TimedVolume drain, Duration gap, List<Step> steps) {
        int last = steps.size() - 1;
        if (last >= 0 && drain.at().isBefore(steps.get(last).end().plus(gap))) {
            steps.set(last, steps.get(last).with(drain));
        } else {
            steps.add(new Step(drain.at(), drain.at(), drain.volumeMl()));
        }
    }
}
