package example.tamponade.app.crash;

import example.tamponade.app.crash.EventMaker.Made;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Several senders at once, some of single events, one of batches, one of wrong events that it corrects. What is not
 * acknowledged they send again half of the time.
 */
final class Senders implements AutoCloseable {

    private static final int OF_SINGLE_EVENTS = 4;
    private static final int FLOOD = 1000;
    private static final long AFTER_A_FAILURE = 500;
    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    private final EventMaker events;
    private final Http http;
    private final Tally tally;
    private final List<Thread> threads = new ArrayList<>();
    private volatile boolean stopped;

    private Senders(EventMaker events, Http http, Tally tally) {
        this.events = events;
        this.http = http;
        this.tally = tally;
    }

    static Senders start(long seed, Http http, Tally tally) {
        Senders senders = new Senders(new EventMaker(seed), http, tally);
        for (int i = 0; i < OF_SINGLE_EVENTS; i++) {
            senders.start(new Random(seed + i), senders::sendOne);
        }
        senders.start(new Random(seed - 1), random -> senders.sendBatch(random, 1 + random.nextInt(20)));
        senders.start(new Random(seed - 2), senders::correctOne);
        return senders;
    }

    private interface Work {
        void send(Random random);
    }

    private void start(Random random, Work work) {
        Thread thread = new Thread(() -> {
            while (!stopped) {
                work.send(random);
            }
        });
        threads.add(thread);
        thread.start();
    }

    private void sendOne(Random random) {
        Made event = next();
        Http.Answer answer = http.post("application/json", event.json());
        tally.answered(answer.status());
        if (answer.status() == 200 || answer.status() == 201) {
            tally.acknowledged(event);
        } else {
            tally.unacknowledged(event, random.nextBoolean());
        }
        Waiting.pause(answer.status() >= 400 || answer.status() == 0 ? AFTER_A_FAILURE : 20 + random.nextInt(80));
    }

    private Made next() {
        Made again = tally.toSendAgain();
        return again == null ? events.next() : again;
    }

    // The counts of an input that broke off are those of its beginning.
    private void sendBatch(Random random, int size) {
        send(size, random);
        Waiting.pause(200 + random.nextInt(400));
    }

    /** Sends very many events in one input. */
    void flood(Random random) {
        send(FLOOD, random);
    }

    private void send(int size, Random random) {
        List<Made> batch = new ArrayList<>();
        for (int i = size; i > 0; i--) {
            batch.add(next());
        }
        Http.Answer answer =
                http.post("application/x-ndjson", batch.stream().map(Made::json).collect(Collectors.joining("\n")));
        tally.answered(answer.status());
        int taken = taken(answer);
        batch.subList(0, taken).forEach(tally::acknowledged);
        batch.subList(taken, batch.size()).forEach(it -> tally.unacknowledged(it, random.nextBoolean()));
    }

    // Refused for want of who recorded it, found in quarantine, and corrected there.
    private void correctOne(Random random) {
        Made event = next();
        Http.Answer refused = http.post("application/json", event.json().replace("\"qm-01\"", "\"\""));
        String entry = refused.status() == 422 ? entryOf(event) : null;
        Http.Answer answer = entry == null
                ? refused
                : http.post("/quarantine/" + entry + "/corrections?by=qm-02", "application/json", event.json());
        if (answer.status() == 200) {
            tally.corrected(event, entry);
        } else {
            tally.unacknowledged(event, random.nextBoolean());
            Waiting.pause(AFTER_A_FAILURE);
        }
    }

    private @Nullable String entryOf(Made event) {
        Http.Answer found = http.get("/quarantine?state=open&mentions=" + event.id());
        return found.status() == 200
                ? MAPPER.readTree(found.body()).path(0).path("id").asString(null)
                : null;
    }

    private static int taken(Http.Answer answer) {
        if (!answer.body().startsWith("{")) {
            return 0;
        }
        JsonNode body = MAPPER.readTree(answer.body());
        return body.path("stored").asInt(0) + body.path("repeated").asInt(0);
    }

    /** Lets each finish what it is sending. */
    @Override
    public void close() {
        stopped = true;
        for (Thread thread : threads) {
            try {
                thread.join();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }
    }
}
