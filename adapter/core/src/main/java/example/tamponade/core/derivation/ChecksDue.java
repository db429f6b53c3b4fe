package example.tamponade.core.derivation;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * Which checks of a schedule were done, late or missed. A check belongs to the due time whose turn it is: a turn begins a
 * little before the due time and ends where the next turn begins, so that one check never counts for two. The first check
 * of a turn counts. Done exactly at the end of its grace is in time.
 *
 * <p>Source: common practice, no source.
 */
public final class ChecksDue {

    private ChecksDue() {}

    /**
     * How long before and after its due time a check counts as in time; from the care protocol.
     *
     * @param early how long before its due time a check's turn begins, not longer than the shortest interval
     * @param grace how long after its due time it is in time
     */
    public record Tolerance(Duration early, Duration grace) {}

    /**
     * The state of every check at a time.
     *
     * @param due due times in order
     * @param done times of checks done, in any order
     * @param tolerance how early and how late a check may be
     * @param now up to when
     */
    public static List<DueCheck> of(List<Instant> due, Collection<Instant> done, Tolerance tolerance, Instant now) {
        TreeSet<Instant> inOrder = new TreeSet<>(done);
        List<DueCheck> checks = new ArrayList<>();
        for (int i = 0; i < due.size(); i++) {
            Instant turnEnds = i + 1 < due.size() ? due.get(i + 1).minus(tolerance.early()) : Instant.MAX;
            Instant first = inOrder.ceiling(due.get(i).minus(tolerance.early()));
            Instant mine = first != null && first.isBefore(turnEnds) ? first : null;
            checks.add(check(due.get(i), due.get(i).plus(tolerance.grace()), turnEnds, mine, now));
        }
        return List.copyOf(checks);
    }

    private static DueCheck check(
            Instant due, Instant inTimeUntil, Instant turnEnds, @Nullable Instant done, Instant now) {
        if (done == null) {
            return new DueCheck(due, open(due, inTimeUntil, turnEnds, now), null);
        }
        return new DueCheck(due, done.isAfter(inTimeUntil) ? DueCheck.State.DONE_LATE : DueCheck.State.DONE, done);
    }

    private static DueCheck.State open(Instant due, Instant inTimeUntil, Instant turnEnds, Instant now) {
        if (!now.isBefore(turnEnds)) {
            return DueCheck.State.MISSED;
        }
        if (now.isAfter(inTimeUntil)) {
            return DueCheck.State.LATE;
        }
        return now.isBefore(due) ? DueCheck.State.UPCOMING : DueCheck.State.DUE;
    }
}
