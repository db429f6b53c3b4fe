package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * One check of a schedule and what became of it.
 *
 * @param due when it is due
 * @param state how it stands
 * @param done when it was done; absent while it was not
 */
public record DueCheck(Instant due, State state, @Nullable Instant done) {

    /** How a check stands. */
    public enum State implements Coded {
        /** Not due yet. */
        UPCOMING,
        /** Due, and within its grace. */
        DUE,
        /** Past its grace; the next is not due yet. */
        LATE,
        /** Never done; the next took its place. */
        MISSED,
        /** Done within its grace. */
        DONE,
        /** Done after its grace. */
        DONE_LATE
    }
}
