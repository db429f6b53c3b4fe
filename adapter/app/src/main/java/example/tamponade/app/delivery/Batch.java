package example.tamponade.app.delivery;

import example.tamponade.app.outbox.Held;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.Resource;

/** Resources that are sent together, by their names; what they point to is among them or there already. */
final class Batch {

    private final Map<String, Sendable> resources = new LinkedHashMap<>();

    void add(String name, Sendable resource) {
        resources.put(name, resource);
    }

    boolean contains(String name) {
        return resources.containsKey(name);
    }

    void removeThoseIn(Map<String, Held> held) {
        resources
                .entrySet()
                .removeIf(it -> held.containsKey(it.getKey())
                        && held.get(it.getKey()).digest().equals(it.getValue().digest()));
    }

    boolean isEmpty() {
        return resources.isEmpty();
    }

    Set<String> names() {
        return resources.keySet();
    }

    Collection<Sendable> all() {
        return resources.values();
    }

    List<Resource> resources() {
        return resources.values().stream().map(Sendable::resource).toList();
    }

    /** What its resources point to. */
    Set<String> references() {
        return resources.values().stream()
                .flatMap(it -> it.references().stream())
                .collect(Collectors.toUnmodifiableSet());
    }

    /** What the destination holds when it has taken them. */
    Map<String, Held> held(Answer answer) {
        Map<String, Held> held = new HashMap<>();
        int place = 0;
        for (Map.Entry<String, Sendable> entry : resources.entrySet()) {
            held.put(
                    entry.getKey(),
                    new Held(
                            entry.getValue().digest(),
                            answer.etags().get(place),
                            answer.ids().get(place)));
            place++;
        }
        return held;
    }
}
