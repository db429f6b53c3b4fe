package example.tamponade.fhir.mapping;

import example.tamponade.core.event.EventEnvelope;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;

/** What is left of events in whose place another stands, or that were withdrawn with it. */
final class Replaced {

    private static final Comparator<EventEnvelope> BY_RECORDING = Comparator.comparing(
                    (EventEnvelope it) -> it.recordedAt().toInstant())
            .thenComparing(it -> it.eventId().toString());

    private final CaseScope scope;
    private final Map<UUID, EventEnvelope> received;
    private final Map<UUID, Recorded> known = new HashMap<>();
    private final Set<UUID> mapped = new HashSet<>();

    private Replaced(CaseScope scope, Collection<EventEnvelope> received) {
        this.scope = scope;
        this.received =
                received.stream().collect(Collectors.toMap(EventEnvelope::eventId, it -> it, (one, same) -> one));
        Stream.concat(scope.standing().stream(), scope.withdrawn().stream()).forEach(it -> {
            known.put(it.root, it);
            mapped.add(it.event.eventId());
        });
        scope.file.withdrawn().forEach(it -> mapped.add(it.retraction().eventId()));
    }

    static List<Resource> map(CaseScope scope, Collection<EventEnvelope> received, PayloadDigests digests) {
        Replaced replaced = new Replaced(scope, received);
        Collected collected = new Collected();
        List<EventEnvelope> events = received.stream()
                .filter(it -> !replaced.mapped.contains(it.eventId()))
                .filter(it -> replaced.known.containsKey(replaced.root(it)))
                .sorted(BY_RECORDING)
                .toList();
        collected.add(SurroundingsMapper.map(events, scope));
        events.forEach(it -> replaced.map(it, digests, collected));
        return collected.all();
    }

    private void map(EventEnvelope event, PayloadDigests digests, Collected collected) {
        Recorded known = Objects.requireNonNull(this.known.get(root(event)));
        Set<String> standing =
                EventMappers.map(known).stream().map(Resource::getIdPart).collect(Collectors.toSet());
        List<Resource> brought =
                event.data() == null ? EventMappers.map(known) : EventMappers.map(scope.replaced(known.root, event));
        brought.stream().filter(it -> !standing.contains(it.getIdPart())).forEach(collected::add);
        List<Reference> targets = brought.stream().map(scope::reference).toList();
        collected.add(ProvenanceMapper.ofEvent(event, targets, digests.sha256Of(event.eventId()), scope));
    }

    // The id that the event was first recorded under, however long the chain of corrections.
    private UUID root(EventEnvelope event) {
        Set<UUID> seen = new HashSet<>();
        UUID id = event.eventId();
        EventEnvelope at = event;
        while (at != null && seen.add(id)) {
            UUID target = at.target();
            if (target == null) {
                return id;
            }
            id = target;
            at = received.get(target);
        }
        return id;
    }
}
