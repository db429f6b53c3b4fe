package example.tamponade.core.protocol;

import java.time.Duration;
import java.util.List;
import java.util.Map;

/**
 * How often the mother is checked in each phase.
 *
 * @param stages for each phase its stages in order; the last one has no end
 * @param source where the schedule comes from
 */
public record CheckSchedule(Map<Phase, List<Stage>> stages, String source) {

    public CheckSchedule {
        stages = Map.copyOf(stages);
    }

    /**
     * A stage of a phase.
     *
     * @param every time between checks
     * @param lasting how long the stage lasts; zero means until the phase ends
     */
    public record Stage(Duration every, Duration lasting) {}

    /** Whether the interval stays the same from when a phase has lasted so long. */
    public boolean steady(Phase phase, Duration inPhase) {
        Duration begin = stages.getOrDefault(phase, List.of()).stream()
                .map(Stage::lasting)
                .reduce(Duration.ZERO, Duration::plus);
        return inPhase.compareTo(begin) >= 0;
    }

    /** Time to the next check when a phase has lasted so long. */
    public Duration every(Phase phase, Duration inPhase) {
        Duration begin = Duration.ZERO;
        List<Stage> ofPhase = stages.getOrDefault(phase, List.of());
        for (Stage stage : ofPhase) {
            Duration end = begin.plus(stage.lasting());
            if (stage.lasting().isZero() || inPhase.compareTo(end) < 0) {
                return stage.every();
            }
            begin = end;
        }
        throw new IllegalStateException("the last stage of phase " + phase + " has an end");
    }
}
