package example.tamponade.core.derivation;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * When checks are due: in each phase at begin of the phase + 1, 2, 3 ... intervals, the end of the phase included; the next
 * phase begins where the one before ended. The first check is one interval after the begin of the schedule.
 *
 * <p>Source: every 5 min while bleeding and then every 15 min, Remote Primary Health Care Manuals, primary postpartum
 * haemorrhage; other schedules are common practice, no source.
 */
public final class CheckSchedule {

    private CheckSchedule() {}

    /**
     * The due times up to a time, that time included.
     *
     * @param begin begin of the schedule
     * @param phases its phases in order, from the care protocol
     * @param to up to when
     */
    public static List<Instant> dueTimes(Instant begin, List<CheckPhase> phases, Instant to) {
        List<Instant> due = new ArrayList<>();
        Instant next = nextAfter(begin, phases, begin);
        while (next != null && !next.isAfter(to)) {
            due.add(next);
            next = nextAfter(begin, phases, next);
        }
        return List.copyOf(due);
    }

    /**
     * The first due time after a time.
     *
     * @param begin begin of the schedule
     * @param phases its phases in order, from the care protocol
     * @param after the time, not itself
     * @return absent when the schedule has ended
     */
    public static @Nullable Instant nextAfter(Instant begin, List<CheckPhase> phases, Instant after) {
        Instant phaseBegin = begin;
        for (CheckPhase phase : phases) {
            Instant phaseEnd = phase.until() == null ? Instant.MAX : begin.plus(phase.until());
            Instant due = firstAfter(phaseBegin, phase.interval(), after);
            if (!due.isAfter(phaseEnd)) {
                return due;
            }
            phaseBegin = phaseEnd;
        }
        return null;
    }

    private static Instant firstAfter(Instant phaseBegin, Duration interval, Instant after) {
        if (after.isBefore(phaseBegin)) {
            return phaseBegin.plus(interval);
        }
        long passed = Duration.between(phaseBegin, after).dividedBy(interval);
        return phaseBegin.plus(interval.multipliedBy(passed + 1));
    }
}
