package example.tamponade.app.delivery;

import example.tamponade.app.outbox.OutboxTurns;
import example.tamponade.app.search.RecordSearch;
import example.tamponade.app.subscription.Channel;
import example.tamponade.app.subscription.SubscriptionCriteria;
import example.tamponade.app.subscription.SubscriptionStore;
import io.github.resilience4j.circuitbreaker.CircuitBreaker;
import java.time.Clock;
import java.time.Duration;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ThreadFactory;
import java.util.concurrent.TimeUnit;
import org.hl7.fhir.r4.model.Subscription;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.context.SmartLifecycle;
import org.springframework.dao.DataAccessException;
import org.springframework.transaction.TransactionException;

/** Tells the endpoints of subscriptions while the server runs, with the patience of any delivery. */
public final class Subscriptions implements SmartLifecycle {

    private static final Logger LOG = LoggerFactory.getLogger(Subscriptions.class);
    private static final long LOOK_MS = 1000;

    private final SubscriptionStore store;
    private final Deliverable deliverable;
    private final Receivers receivers;
    private final OutboxTurns turns;
    private final RecordSearch search;
    private final boolean isAlone;
    private final Clock clock;
    private final Map<String, ExecutorService> workers = new HashMap<>();
    private final ScheduledExecutorService looking =
            Executors.newSingleThreadScheduledExecutor(daemon("subscriptions"));
    private volatile boolean running;

    /**
     * Tells of what goes on record.
     *
     * @param deliveries those whose parts it shares
     * @param isAlone whether no other adapter works on the database
     */
    public Subscriptions(
            SubscriptionStore store,
            Deliveries deliveries,
            Receivers receivers,
            OutboxTurns turns,
            RecordSearch search,
            boolean isAlone,
            Clock clock) {
        this.store = store;
        this.deliverable = deliveries.deliverable();
        this.receivers = receivers;
        this.turns = turns;
        this.search = search;
        this.isAlone = isAlone;
        this.clock = clock;
    }

    @Override
    public void start() {
        running = true;
        looking.scheduleWithFixedDelay(this::look, 0, LOOK_MS, TimeUnit.MILLISECONDS);
    }

    // Others may have made them, or ended them.
    private void look() {
        try {
            Set<String> there = new HashSet<>();
            for (Subscription subscription : store.all()) {
                if (subscription.hasEnd() && subscription.getEnd().toInstant().isBefore(clock.instant())) {
                    store.remove(subscription);
                } else {
                    there.add(subscription.getIdPart());
                    workers.computeIfAbsent(subscription.getIdPart(), id -> beginOrSay(subscription));
                }
            }
            workers.entrySet().removeIf(it -> {
                boolean gone = !there.contains(it.getKey());
                if (gone) {
                    it.getValue().shutdownNow();
                }
                return gone;
            });
        } catch (DataAccessException | TransactionException e) {
            LOG.warn("subscriptions wait for the database: {}", e.getClass().getSimpleName());
        }
    }

    // One that an earlier version took and this one cannot tell of keeps no other from being told.
    private @Nullable ExecutorService beginOrSay(Subscription subscription) {
        try {
            return begin(subscription);
        } catch (DataAccessException | TransactionException e) {
            throw e;
        } catch (RuntimeException e) {
            turns.problem(
                    SubscriptionStore.destination(subscription),
                    "it cannot be told of: " + e.getMessage() + "; end it and make another");
            return null;
        }
    }

    private ExecutorService begin(Subscription subscription) {
        String name = SubscriptionStore.destination(subscription);
        if (isAlone) {
            turns.takeBack(name);
        }
        Channel channel = Channel.of(subscription);
        Destination destination = Destination.ofHook(channel.endpoint());
        HookDelivery delivery = new HookDelivery(
                name,
                SubscriptionCriteria.request(subscription),
                receivers.hook(channel, destination),
                destination,
                search,
                deliverable,
                turns);
        ExecutorService worker = Executors.newSingleThreadExecutor(daemon(name));
        worker.execute(new DestinationWorker(
                name, destination, delivery, turns, CircuitBreaker.of(name, Deliveries.breaker(destination))));
        return worker;
    }

    private static ThreadFactory daemon(String name) {
        return work -> {
            Thread thread = new Thread(work, name);
            thread.setDaemon(true);
            return thread;
        };
    }

    @Override
    public void stop() {
        running = false;
        looking.shutdownNow();
        workers.values().forEach(ExecutorService::shutdownNow);
        try {
            for (ExecutorService worker : workers.values()) {
                worker.awaitTermination(Duration.ofSeconds(10).toMillis(), TimeUnit.MILLISECONDS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public boolean isRunning() {
        return running;
    }
}
