package example.tamponade.core.casefile;

import example.tamponade.core.protocol.Phase;
import java.time.Duration;
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
     * @param owed whether one was missed since the latest was done
     * @param last the latest, or when the one after it was missed; the next is due behind it. Absent before recognition
     */
    record Round(
            long done, long missed, boolean owed, @Nullable OffsetDateTime last) {

        static final Round NONE = new Round(0, 0, false, null);

        /** One was due and not done at that time. */
        Round missedAt(OffsetDateTime due) {
            return new Round(done, missed + 1, true, due);
        }

        /** One was due and not done at that time, and one after each further interval that ends before another time. */
        Round missedAt(OffsetDateTime due, Duration every, OffsetDateTime before) {
            long further = Duration.between(due, before).minusNanos(1).dividedBy(every);
            return new Round(done, missed + 1 + further, true, due.plus(every.multipliedBy(further)));
        }
    }
}
