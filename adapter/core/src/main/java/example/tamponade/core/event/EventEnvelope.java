package example.tamponade.core.event;

import java.time.OffsetDateTime;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * One event as it was written down: who recorded what, about which case, when it happened and when it was recorded.
 *
 * <p>An event that corrects another stands wholly in its place: time and data. An event that retracts another carries no
 * data of its own.
 *
 * @param eventId the idempotency key
 * @param caseId the case; absent only for an event of a facility
 * @param facilityId the facility that recorded it
 * @param occurredAt when it happened, with the offset that was written
 * @param recordedAt when it was recorded
 * @param recordedBy by whom
 * @param source where it was written down first; absent when not said
 * @param corrects the event that this one replaces
 * @param retracts the event that this one withdraws
 * @param data what happened; absent exactly when the event retracts another
 */
public record EventEnvelope(
        UUID eventId,
        @Nullable CaseId caseId,
        String facilityId,
        OffsetDateTime occurredAt,
        OffsetDateTime recordedAt,
        Recorder recordedBy,
        @Nullable EventSource source,
        @Nullable UUID corrects,
        @Nullable UUID retracts,
        @Nullable BedsideEvent data) {

    public EventEnvelope {
        if ((data == null) == (retracts == null)) {
            throw new IllegalArgumentException("event " + eventId + " must have either data or retracts");
        }
    }

    /** The event that this one corrects or withdraws; null when it is one of its own. */
    public @Nullable UUID target() {
        return retracts == null ? corrects : retracts;
    }
}
