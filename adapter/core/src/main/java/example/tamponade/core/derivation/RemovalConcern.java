package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What speaks against taking a balloon out now. Watched for exactly the wait is long enough.
 *
 * <p>Source: common practice, no source.
 */
public enum RemovalConcern implements Coded {
    /** The tamponade chamber is not empty. */
    TAMPONADE_CHAMBER_NOT_EMPTY,
    /** The empty balloon was not watched for long enough. */
    WATCHED_TOO_SHORT,
    /** The retention chamber is not empty. */
    RETENTION_CHAMBER_NOT_EMPTY;

    /**
     * The concerns; none is an empty list.
     *
     * @param emptySince since when the tamponade chamber is empty and nothing bleeds; absent while it is not
     * @param removed when the device is taken out
     * @param wait how long an empty balloon is watched, from the care protocol
     * @param retentionMl volume in the retention chamber, mL; 0 when there is none
     */
    public static List<RemovalConcern> of(
            @Nullable Instant emptySince, Instant removed, Duration wait, BigDecimal retentionMl) {
        List<RemovalConcern> concerns = new ArrayList<>();
        if (emptySince == null) {
            concerns.add(TAMPONADE_CHAMBER_NOT_EMPTY);
        } else if (removed.isBefore(emptySince.plus(wait))) {
            concerns.add(WATCHED_TOO_SHORT);
        }
        if (retentionMl.signum() > 0) {
            concerns.add(RETENTION_CHAMBER_NOT_EMPTY);
        }
        return List.copyOf(concerns);
    }
}
