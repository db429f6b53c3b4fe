package example.tamponade.app.path;

import example.tamponade.app.intake.FaultLog;
import example.tamponade.app.projection.CaseRecords;
import java.time.Duration;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.dao.DataAccessException;
import org.springframework.transaction.TransactionException;

/**
 * Brings cases up to the ledger behind the acknowledgement. What is to be done is in the ledger, not here: whatever a stop
 * or a failure left behind its checkpoint is found again, at start and from time to time.
 */
public final class Projector implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(Projector.class);

    private static final Duration LOOK_AGAIN = Duration.ofSeconds(30);
    private static final Duration STOP = Duration.ofSeconds(10);

    private final CaseRecords records;
    private final Set<String> pending = ConcurrentHashMap.newKeySet();
    private final ScheduledExecutorService executor =
            Executors.newScheduledThreadPool(Runtime.getRuntime().availableProcessors(), work -> {
                Thread thread = new Thread(work, "projector");
                thread.setDaemon(true);
                return thread;
            });

    /** Brings those records up to their ledger. */
    public Projector(CaseRecords records) {
        this.records = records;
    }

    /** Begins with what was left behind. */
    public void start() {
        executor.scheduleWithFixedDelay(this::catchUp, 0, LOOK_AGAIN.toMillis(), TimeUnit.MILLISECONDS);
    }

    /** Has these cases brought up to the ledger soon. */
    void wake(Set<String> caseKeys) {
        for (String caseKey : caseKeys) {
            if (pending.add(caseKey) && !executor.isShutdown()) {
                executor.execute(() -> {
                    pending.remove(caseKey);
                    bringUpToDate(caseKey);
                });
            }
        }
    }

    private void catchUp() {
        try {
            records.behind().forEach(this::bringUpToDate);
        } catch (RuntimeException e) {
            LOG.warn("cannot see which cases are behind: {}", e.getMessage());
        }
    }

    // One case that cannot be brought up to date must not keep the others from being so.
    private void bringUpToDate(String caseKey) {
        try {
            if (!executor.isShutdown()) {
                records.bringUpToDate(caseKey);
            }
        } catch (DataAccessException | TransactionException e) {
            LOG.warn(
                    "a case stays behind the ledger and is tried again: {}",
                    e.getClass().getSimpleName());
        } catch (RuntimeException e) {
            if (executor.isShutdown()) {
                return;
            }
            FaultLog.error(LOG, "a case stays behind the ledger and is tried again; please report this", e);
        }
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
