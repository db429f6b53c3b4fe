package example.tamponade.core.casefile;

import example.tamponade.core.protocol.Phase;
import java.time.OffsetDateTime;
import org.jspecify.annotations.Nullable;

/**
 * The checks of the protocol's schedule.
 *
 * @param phase the phase whose schedule holds; absent before recognition
 * @param phaseSince when the phase began; absent before recognition
 * @param signs checks of pulse and pressure
 * @param bleeding checks of the bleeding
 */
record CheckState(@Nullable Phase phase, @Nullable OffsetDateTime phaseSince, Round signs, Round bleeding) {

    static final CheckState NONE = new CheckState(null, null, Round.NONE, Round.NONE);

    /**
     * One kind of check.
     *
     * @param done how many were done while they were due by a schedule
     * @param missed how many were due and not done
     * @param last the latest; absent before the first and before recognition
     */
    record Round(long done, long missed, @Nullable OffsetDateTime last) {

        static final Round NONE = new Round(0, 0, null);
    }
}
