package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * How something that must be done in time stands: bleeding controlled after insertion, a second blood pressure after birth.
 * Done exactly at the deadline is in time; not done by then, it is missed from the deadline on.
 *
 * <p>Source: second blood pressure and first void within 6 h, WHO recommendation on routine postpartum maternal
 * assessment, 2013; control of bleeding within 15 min, common practice, no source.
 */
public enum DeadlineState implements Coded {
    /** Not done, and there is time. */
    PENDING,
    /** Done in time. */
    MET,
    /** Not done in time. */
    MISSED;

    /**
     * The state at a time.
     *
     * @param start when the time began to run
     * @param allowed how long there is, from the care protocol
     * @param done when it was done; absent when not yet
     * @param now up to when
     */
    public static DeadlineState of(Instant start, Duration allowed, @Nullable Instant done, Instant now) {
        Instant deadline = start.plus(allowed);
        if (done != null) {
            return done.isAfter(deadline) ? MISSED : MET;
        }
        return now.isBefore(deadline) ? PENDING : MISSED;
    }
}
