package example.tamponade.core.casefile;

import example.tamponade.core.event.EventEnvelope;
import java.time.Instant;
import java.util.Comparator;

/**
 * Where an event stands in its case: by the time it happened, then by the time it was recorded, then by its id as text.
 *
 * @param occurredAt when it happened
 * @param recordedAt when it was recorded
 * @param eventId its id in lower case
 */
record EventOrder(Instant occurredAt, Instant recordedAt, String eventId) implements Comparable<EventOrder> {

    private static final Comparator<EventOrder> ORDER = Comparator.comparing(EventOrder::occurredAt)
            .thenComparing(EventOrder::recordedAt)
            .thenComparing(EventOrder::eventId);

    static EventOrder of(EventEnvelope event) {
        return new EventOrder(
                event.occurredAt().toInstant(),
                event.recordedAt().toInstant(),
                event.eventId().toString());
    }

    /** Before every event of the same instant. */
    EventOrder beginOfInstant() {
        return new EventOrder(occurredAt, Instant.MIN, "");
    }

    /** After every event of the same instant. */
    EventOrder endOfInstant() {
        return new EventOrder(occurredAt, Instant.MAX, "");
    }

    @Override
    public int compareTo(EventOrder other) {
        return ORDER.compare(this, other);
    }
}
