package example.tamponade.core.derivation;

import java.time.Duration;
import java.time.Instant;

/**
 * From when deflation may begin = the later of insertion + minimum dwell and stable since + stable interval. The time
 * itself belongs to it. A disturbance moves it; begun earlier, deflation is flagged, not refused.
 *
 * <p>Source: common practice, no source.
 */
public final class DeflationStart {

    private DeflationStart() {}

    /**
     * The earliest time.
     *
     * @param inserted when the device was placed
     * @param minimumDwell shortest dwell, from the care protocol
     * @param stableSince since when she is stable
     * @param stableInterval how long she must be, from the care protocol
     */
    public static Instant of(Instant inserted, Duration minimumDwell, Instant stableSince, Duration stableInterval) {
        Instant byDwell = inserted.plus(minimumDwell);
        Instant byStability = stableSince.plus(stableInterval);
        return byDwell.isAfter(byStability) ? byDwell : byStability;
    }
}
