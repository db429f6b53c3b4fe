package example.tamponade.core.casefile;

import example.tamponade.core.event.EventEnvelope;
import java.util.Comparator;
import java.util.HashSet;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.pcollections.HashTreePMap;
import org.pcollections.PMap;

/**
 * An event with everything that corrects or retracts it, in whatever order they came.
 *
 * <p>The latest correction that is not retracted stands in place of the event. A retraction of the event withdraws it with
 * its corrections; a retraction of a correction withdraws that correction alone; a retracted retraction has no effect.
 *
 * @param root the id that the event was first recorded under
 * @param versions the event and its corrections, by their ids
 * @param retractions what retracts any of them, by the ids of the retracting events
 */
record EventChain(UUID root, PMap<UUID, EventEnvelope> versions, PMap<UUID, EventEnvelope> retractions) {

    private static final Comparator<EventEnvelope> BY_RECORDING = Comparator.comparing(
                    (EventEnvelope it) -> it.recordedAt().toInstant())
            .thenComparing(it -> it.eventId().toString());

    static EventChain empty(UUID root) {
        return new EventChain(root, HashTreePMap.empty(), HashTreePMap.empty());
    }

    EventChain with(EventEnvelope event) {
        return event.retracts() == null
                ? new EventChain(root, versions.plus(event.eventId(), event), retractions)
                : new EventChain(root, versions, retractions.plus(event.eventId(), event));
    }

    /** The ids of everything in the chain. */
    Set<UUID> ids() {
        Set<UUID> ids = new HashSet<>(versions.keySet());
        ids.addAll(retractions.keySet());
        return ids;
    }

    EventChain merged(EventChain other) {
        return new EventChain(root, versions.plusAll(other.versions), retractions.plusAll(other.retractions));
    }

    /** What stands; null when the event is withdrawn or nothing but a retraction has come. */
    @Nullable
    EventEnvelope standing() {
        if (retractionOf(root) != null) {
            return null;
        }
        return versions.values().stream()
                .filter(it -> retractionOf(it.eventId()) == null)
                .max(Comparator.comparing(this::isCorrection).thenComparing(BY_RECORDING))
                .orElse(null);
    }

    /** The withdrawal of the whole chain; null when it stands or nothing but a retraction has come. */
    @Nullable
    Withdrawn withdrawn() {
        EventEnvelope retraction = retractionOf(root);
        EventEnvelope last = versions.values().stream()
                .max(Comparator.comparing(this::isCorrection).thenComparing(BY_RECORDING))
                .orElse(null);
        return retraction == null || last == null ? null : new Withdrawn(root, last, retraction);
    }

    private boolean isCorrection(EventEnvelope event) {
        return !event.eventId().equals(root);
    }

    private @Nullable EventEnvelope retractionOf(UUID target) {
        return retractions.values().stream()
                .filter(it -> target.equals(it.retracts()))
                .filter(it -> retractions.values().stream()
                        .noneMatch(other -> it.eventId().equals(other.retracts())))
                .min(BY_RECORDING)
                .orElse(null);
    }
}
