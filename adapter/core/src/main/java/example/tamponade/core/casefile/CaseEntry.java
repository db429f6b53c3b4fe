package example.tamponade.core.casefile;

import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.EventEnvelope;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * One event that stands in a case, and what it brought.
 *
 * @param root the id that the event was first recorded under
 * @param event what stands: the event itself or its latest correction
 * @param facts what was derived at it
 * @param tamponade the insertion in place when it happened, or the one it ended; absent when none
 * @param recognition the event by which the haemorrhage had been recognised by then; absent before
 */
public record CaseEntry(
        UUID root,
        EventEnvelope event,
        List<CaseFact> facts,
        @Nullable UUID tamponade,
        @Nullable UUID recognition) {

    public CaseEntry {
        facts = List.copyOf(facts);
    }

    /** What happened. */
    public BedsideEvent data() {
        return Objects.requireNonNull(event.data());
    }

    /** The value derived at it that has this key; null when there is none. */
    @Nullable
    DerivedValue value(FactKey key) {
        for (CaseFact fact : facts) {
            if (fact instanceof DerivedValue value && value.key().equals(key)) {
                return value;
            }
        }
        return null;
    }

    /** Whether a correction stands in place of the event first recorded. */
    public boolean corrected() {
        return !event.eventId().equals(root);
    }
}
