package example.tamponade.app.record;

import java.time.OffsetDateTime;
import org.jspecify.annotations.Nullable;

/**
 * Up to where everything of a case is on record.
 *
 * @param seq its last event there; 0 when nothing is
 * @param asOf up to when the warnings that time alone brings are; null when none are, or nobody knows
 * @param known whether it is known up to when they are
 */
public record Checkpoint(long seq, @Nullable OffsetDateTime asOf, boolean known) {

    static final Checkpoint NOTHING = upTo(0, null);

    /** What is on record up to an event and a time. */
    public static Checkpoint upTo(long seq, @Nullable OffsetDateTime asOf) {
        return new Checkpoint(seq, asOf, true);
    }
}
