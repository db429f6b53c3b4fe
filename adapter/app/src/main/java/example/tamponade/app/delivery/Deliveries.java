package example.tamponade.app.delivery;

import example.tamponade.app.database.Database;
import example.tamponade.app.outbox.HeldResources;
import example.tamponade.app.outbox.Outbox;
import example.tamponade.app.outbox.OutboxTurns;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.fhir.bundle.CaseBundles;
import example.tamponade.fhir.pseudonym.Pseudonymiser;
import io.github.resilience4j.circuitbreaker.CircuitBreaker;
import io.github.resilience4j.circuitbreaker.CircuitBreakerConfig;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.springframework.context.SmartLifecycle;

/** Delivers to every destination while the server runs. */
public final class Deliveries implements SmartLifecycle {

    private static final Duration STOP = Duration.ofSeconds(10);

    private static final Duration LONGEST_PAUSE = Duration.ofMinutes(1);

    private final DeliverySettings settings;
    private final Outbox outbox;
    private final OutboxTurns turns;
    private final HeldResources held;
    private final Deliverable deliverable;
    private final Receivers receivers;
    private final Database database;
    private final @Nullable Pseudonymiser pseudonymiser;
    private final List<ExecutorService> running = new ArrayList<>();
    private final List<Receiver> spokenTo = new ArrayList<>();

    /**
     * Delivers what the record of that database holds.
     *
     * @param pseudonymiser makes the pseudonymised form; null: there is none
     */
    public Deliveries(
            DeliverySettings settings,
            Database database,
            ResourceRecord record,
            CaseBundles bundles,
            Receivers receivers,
            Outbox outbox,
            OutboxTurns turns,
            @Nullable Pseudonymiser pseudonymiser) {
        this.pseudonymiser = pseudonymiser;
        this.settings = settings;
        this.database = database;
        this.outbox = outbox;
        this.turns = turns;
        this.held = new HeldResources(database);
        this.deliverable = new Deliverable(record, held, bundles, pseudonymiser);
        this.receivers = receivers;
    }

    /** What of a case may be told. */
    Deliverable deliverable() {
        return deliverable;
    }

    @Override
    public void start() {
        settings.destinations().forEach((name, destination) -> {
            if (destination.pseudonymised() && pseudonymiser == null) {
                throw new IllegalArgumentException("tamponade.destinations." + name
                        + ".pseudonymised cannot be used; set tamponade.pseudonyms, the file with the key");
            }
        });
        settings.destinations().forEach(this::start);
    }

    private void start(String name, Destination destination) {
        outbox.register(name, destination.address().toString(), destination.selection());
        if (!database.dialect().shared()) {
            // Whoever held cases here is gone.
            turns.takeBack(name);
        }
        CaseDelivery delivery = new CaseDelivery(
                name,
                destination,
                receivers.of(destination, deliverable),
                deliverable,
                turns,
                held,
                database.transactions());
        CircuitBreaker breaker = CircuitBreaker.of(name, breaker(destination));
        ExecutorService workers = Executors.newFixedThreadPool(destination.atOnce(), work -> {
            Thread thread = new Thread(work, "delivery-" + name);
            thread.setDaemon(true);
            return thread;
        });
        for (int i = 0; i < destination.atOnce(); i++) {
            workers.execute(new DestinationWorker(name, destination, delivery, turns, breaker));
        }
        running.add(workers);
    }

    // Three in a row that do not answer are not the cases' doing.
    static CircuitBreakerConfig breaker(Destination destination) {
        return CircuitBreakerConfig.custom()
                .slidingWindowSize(3)
                .minimumNumberOfCalls(3)
                .failureRateThreshold(100)
                .permittedNumberOfCallsInHalfOpenState(1)
                .waitIntervalFunctionInOpenState(destination.pauses(LONGEST_PAUSE))
                .build();
    }

    @Override
    public void stop() {
        running.forEach(ExecutorService::shutdownNow);
        try {
            for (ExecutorService workers : running) {
                workers.awaitTermination(STOP.toMillis(), TimeUnit.MILLISECONDS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        running.clear();
        spokenTo.forEach(Receiver::close);
        spokenTo.clear();
    }

    @Override
    public boolean isRunning() {
        return !running.isEmpty();
    }
}
