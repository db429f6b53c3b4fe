package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.time.Duration;
import java.time.Instant;

/**
 * How the time that a balloon has been in place stands to the shortest and the longest dwell. Each state begins with its
 * time: in place for exactly the longest dwell, the limit is reached.
 *
 * <p>Source: common practice, no source.
 */
public enum DwellState implements Coded {
    /** Shorter than the minimum. */
    BELOW_MINIMUM,
    /** Long enough, and the limit is not near. */
    WITHIN,
    /** The limit is near. */
    LIMIT_NEAR,
    /** The limit is reached. */
    LIMIT_REACHED;

    /**
     * The dwell times, from the care protocol.
     *
     * @param minimum shortest dwell
     * @param maximum longest dwell
     * @param warnBefore how long before the longest dwell the limit is near
     */
    public record Limits(Duration minimum, Duration maximum, Duration warnBefore) {}

    /**
     * The state at a time.
     *
     * @param inserted when the device was placed
     * @param at up to when
     * @param limits the dwell times
     */
    public static DwellState of(Instant inserted, Instant at, Limits limits) {
        if (!at.isBefore(inserted.plus(limits.maximum()))) {
            return LIMIT_REACHED;
        }
        if (!at.isBefore(inserted.plus(limits.maximum()).minus(limits.warnBefore()))) {
            return LIMIT_NEAR;
        }
        return at.isBefore(inserted.plus(limits.minimum())) ? BELOW_MINIMUM : WITHIN;
    }
}
