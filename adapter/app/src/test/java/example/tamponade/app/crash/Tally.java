package example.tamponade.app.crash;

import example.tamponade.app.crash.EventMaker.Made;
import java.util.Map;
import java.util.Queue;
import java.util.TreeMap;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentLinkedQueue;

/** What the senders were told. */
final class Tally {

    private final Map<UUID, Made> acknowledged = new ConcurrentHashMap<>();
    private final Map<UUID, Made> unacknowledged = new ConcurrentHashMap<>();
    private final Map<Integer, Integer> answers = new ConcurrentHashMap<>();
    private final Queue<Made> toSendAgain = new ConcurrentLinkedQueue<>();

    private final Queue<String> corrected = new ConcurrentLinkedQueue<>();

    void answered(int status) {
        answers.merge(status, 1, Integer::sum);
    }

    void acknowledged(Made event) {
        acknowledged.put(event.id(), event);
        unacknowledged.remove(event.id());
    }

    void corrected(Made event, String entry) {
        acknowledged(event);
        corrected.add(entry);
    }

    /** The entries of quarantine whose corrections were acknowledged. */
    Queue<String> corrected() {
        return corrected;
    }

    void unacknowledged(Made event, boolean sendAgain) {
        unacknowledged.put(event.id(), event);
        if (sendAgain) {
            toSendAgain.add(event);
        }
    }

    /** An event to be sent again, null when there is none. */
    Made toSendAgain() {
        return toSendAgain.poll();
    }

    /** The acknowledged events by their ids. */
    Map<UUID, Made> acknowledged() {
        return acknowledged;
    }

    /** Events that were sent and never acknowledged. */
    Map<UUID, Made> unacknowledged() {
        return unacknowledged;
    }

    /** How often each HTTP status came; 0 is a connection that broke. */
    Map<Integer, Integer> answers() {
        return new TreeMap<>(answers);
    }

    int answers(int status) {
        return answers.getOrDefault(status, 0);
    }
}
