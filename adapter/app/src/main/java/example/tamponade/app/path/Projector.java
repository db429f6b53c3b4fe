package example.tamponade.app.path;

import example.tamponade.app.intake.FaultLog;
import example.tamponade.app.machine.Memory;
import example.tamponade.app.projection.CaseRecords;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.IntSupplier;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.dao.DataAccessException;
import org.springframework.transaction.TransactionException;

/**
 * Brings cases up to the ledger behind the acknowledgement, each case for a short turn and then the next, so that none
 * waits for a long one. What is to be done is in the ledger, not here: whatever a stop or a failure left behind its
 * checkpoint is found again, at start and from time to time.
 */
public final class Projector implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(Projector.class);

    private static final Duration LOOK_AGAIN = Duration.ofSeconds(30);
    private static final Duration STOP = Duration.ofSeconds(10);

    // A quarter of a second's work.
    private static final int TURN = 100;

    private static final int FAILED = -1;

    private static final long WAIT_MS = 20;

    private final CaseRecords records;
    private final Clock clock;
    private final Map<String, Instant> waiting = new ConcurrentHashMap<>();
    private final Map<String, Instant> since = new ConcurrentHashMap<>();
    private final ScheduledExecutorService executor =
            Executors.newScheduledThreadPool(Runtime.getRuntime().availableProcessors(), work -> {
                Thread thread = new Thread(work, "projector");
                thread.setDaemon(true);
                return thread;
            });

    /** Brings those records up to their ledger. */
    public Projector(CaseRecords records, Clock clock) {
        this.records = records;
        this.clock = clock;
    }

    /** Begins with what was left behind. */
    public void start() {
        executor.scheduleWithFixedDelay(this::catchUp, 0, LOOK_AGAIN.toMillis(), TimeUnit.MILLISECONDS);
        executor.execute(() -> letTimePass(records::recent));
        executor.scheduleWithFixedDelay(
                () -> letTimePass(records::awaitedByNow),
                LOOK_AGAIN.toMillis(),
                LOOK_AGAIN.toMillis(),
                TimeUnit.MILLISECONDS);
    }

    /** How many events are acknowledged and not on record yet, as far as this adapter knows. */
    public long behind() {
        return records.eventsBehind();
    }

    /** How long the case that has waited longest has waited to be on record up to its last event; zero when none waits. */
    public Duration oldest() {
        Instant now = clock.instant();
        return since.values().stream()
                .min(Comparator.naturalOrder())
                .map(it -> Duration.between(it, now))
                .orElse(Duration.ZERO);
    }

    /**
     * Whether senders are to wait for the record: more events than that are behind, and they are becoming fewer. Where
     * nothing is put on record any more, waiting helps nobody, and acknowledging is as safe as ever.
     */
    boolean isTooFarBehind(long most) {
        return behind() > most && records.sinceLastStep().compareTo(LOOK_AGAIN) < 0;
    }

    /** Waits until no more than that many events are behind. */
    void waitUntilBehindAtMost(long most) throws InterruptedException {
        while (isTooFarBehind(most) && !executor.isShutdown()) {
            Thread.sleep(WAIT_MS);
        }
    }

    /** Has these cases brought up to the ledger soon; each with how many events it has more than before. */
    void wake(Map<String, Long> cases) {
        cases.forEach((caseKey, events) -> {
            records.added(events);
            wake(caseKey);
        });
    }

    private void wake(String caseKey) {
        Instant now = clock.instant();
        since.putIfAbsent(caseKey, now);
        if (waiting.putIfAbsent(caseKey, now) == null) {
            queue(caseKey);
        }
    }

    private void queue(String caseKey) {
        if (!executor.isShutdown()) {
            executor.execute(() -> turn(caseKey));
        }
    }

    // Whoever adds an event while the last turn ends finds the case gone from those that wait, and wakes it again.
    private void turn(String caseKey) {
        waiting.remove(caseKey);
        int done = bringOn(caseKey);
        if (done == TURN) {
            wake(caseKey);
        } else if (done != FAILED) {
            since.computeIfPresent(caseKey, (key, before) -> waiting.get(key));
        }
    }

    private void catchUp() {
        try {
            records.countEventsBehind();
            Set<String> cases = records.behind();
            // One that stays behind goes on waiting since it was first seen so.
            since.keySet().removeIf(it -> !cases.contains(it) && !waiting.containsKey(it));
            cases.forEach(this::wake);
        } catch (RuntimeException e) {
            LOG.warn("cannot see which cases are behind: {}", e.getMessage());
        }
    }

    // A warning that nobody asks for is to be on record too, for those it is delivered to.
    private void letTimePass(Supplier<List<String>> asked) {
        try {
            for (String caseKey : asked.get()) {
                executor.execute(() -> letTimePass(caseKey));
            }
        } catch (DataAccessException | TransactionException | RejectedExecutionException e) {
            LOG.warn("cannot see which cases time has brought something to: {}", e.getMessage());
        }
    }

    private void letTimePass(String caseKey) {
        guarded(() -> {
            records.letTimePassUnlessBehind(caseKey);
            return 0;
        });
    }

    // One case that cannot be brought up to date must not keep the others from being so.
    private int bringOn(String caseKey) {
        return guarded(() -> records.bringOn(caseKey, TURN));
    }

    private int guarded(IntSupplier work) {
        try {
            return executor.isShutdown() ? 0 : work.getAsInt();
        } catch (DataAccessException | TransactionException e) {
            LOG.warn(
                    "a case stays behind the ledger and is tried again: {}",
                    e.getClass().getSimpleName());
        } catch (RuntimeException e) {
            if (!executor.isShutdown()) {
                FaultLog.error(LOG, "a case stays behind the ledger and is tried again; please report this", e);
            }
        } catch (OutOfMemoryError e) {
            Memory.endIfExhausted(e);
        }
        return FAILED;
    }

    @Override
    public void close() {
        executor.shutdown();
        try {
            if (!executor.awaitTermination(STOP.toMillis(), TimeUnit.MILLISECONDS)) {
                executor.shutdownNow();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
