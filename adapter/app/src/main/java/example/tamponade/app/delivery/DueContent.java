package example.tamponade.app.delivery;

import example.tamponade.app.outbox.Held;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;

/**
 * What is due of a case, cut into batches. A batch holds whatever its resources point to and the destination does not have,
 * so that each can be taken by itself.
 */
final class DueContent {

    private final Deque<String> open;
    private final Function<Collection<String>, Map<String, Sendable>> read;
    private final Function<Collection<String>, Map<String, Held>> held;

    /**
     * What is due.
     *
     * @param names the resources, {@code Type/id}
     * @param read gives resources as they are sent, of those that there are
     * @param held what the destination holds of resources
     */
    DueContent(
            Collection<String> names,
            Function<Collection<String>, Map<String, Sendable>> read,
            Function<Collection<String>, Map<String, Held>> held) {
        this.open = new ArrayDeque<>(names);
        this.read = read;
        this.held = held;
    }

    /** The next batch of about so many; empty when there is nothing more to send. */
    Batch next(int most) {
        Batch batch = new Batch();
        while (batch.isEmpty() && !open.isEmpty()) {
            List<String> names = new ArrayList<>();
            while (names.size() < most && !open.isEmpty()) {
                names.add(open.remove());
            }
            add(names, batch);
            batch.removeThoseIn(held.apply(batch.names()));
        }
        Collection<Sendable> added = batch.all();
        while (!added.isEmpty()) {
            added = add(missing(added, batch), batch);
        }
        return batch;
    }

    /** Takes a batch back that is to be cut smaller. */
    void putBack(Batch batch) {
        batch.names().forEach(open::addFirst);
    }

    private Collection<Sendable> add(Collection<String> names, Batch batch) {
        Map<String, Sendable> found = read.apply(names);
        for (String name : names) {
            Sendable resource = found.get(name);
            if (resource != null) {
                batch.add(name, resource);
            }
        }
        return found.values();
    }

    private Set<String> missing(Collection<Sendable> resources, Batch batch) {
        Set<String> missing = new TreeSet<>();
        for (Sendable resource : resources) {
            resource.references().stream().filter(it -> !batch.contains(it)).forEach(missing::add);
        }
        missing.removeAll(held.apply(missing).keySet());
        return missing;
    }
}
