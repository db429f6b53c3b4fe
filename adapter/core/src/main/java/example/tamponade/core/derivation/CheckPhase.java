package example.tamponade.core.derivation;

import java.time.Duration;
import org.jspecify.annotations.Nullable;

/**
 * A part of a schedule of checks.
 *
 * @param interval time from one check to the next, longer than zero, for example 15 min
 * @param until when the phase ends, counted from the begin of the schedule, for example 2 h; absent when it has no end
 */
public record CheckPhase(Duration interval, @Nullable Duration until) {

    public CheckPhase {
        if (interval.isZero() || interval.isNegative()) {
            throw new IllegalArgumentException("checks every " + interval + " never get on; give a longer interval");
        }
    }
}
