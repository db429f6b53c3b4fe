package example.tamponade.app.access;

import example.tamponade.app.database.Database;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.dao.DataAccessException;
import org.springframework.transaction.TransactionException;

/**
 * Writes down who reads what, many readers' entries in one transaction. A reader waits until his entry is on disk, but no longer than two seconds: a full disk keeps nobody from reading how a
 * mother is. Entries that could not be written wait in memory, so many of them, and are written as soon as they can be.
 */
public final class AccessLogWriter implements AutoCloseable {

    /** How many entries may wait to be written. */
    public static final int WAITING = 10_000;

    private static final Logger LOG = LoggerFactory.getLogger(AccessLog.class);
    private static final Duration PATIENCE = Duration.ofSeconds(2);
    private static final Duration TRY_AGAIN = Duration.ofSeconds(1);
    private static final Duration STOP = Duration.ofSeconds(10);
    private static final int TOGETHER = 500;

    private final AccessLog log;
    private final BlockingQueue<Waiting> waiting = new LinkedBlockingQueue<>(WAITING);
    private final Thread thread;
    private volatile boolean closed;

    /** Writes to the log in that database. */
    public AccessLogWriter(Database database) {
        this.log = new AccessLog(database);
        this.thread = new Thread(this::run, "access-log");
        this.thread.setDaemon(true);
        this.thread.start();
    }

    private record Waiting(AccessEntry entry, CompletableFuture<Void> written) {}

    /**
     * Adds an entry; waits until it is on disk or, where that cannot be soon, waits in memory.
     *
     * @return whether it is on disk or waits; false when too many wait already
     */
    public boolean add(AccessEntry entry) {
        Waiting added = new Waiting(entry, new CompletableFuture<>());
        if (!waiting.offer(added)) {
            return false;
        }
        try {
            added.written().get(PATIENCE.toMillis(), TimeUnit.MILLISECONDS);
        } catch (TimeoutException e) {
            LOG.warn("the access log could not be written in time; {} entries wait in memory", waiting.size());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (ExecutionException e) {
            throw new IllegalStateException(e);
        }
        return true;
    }

    /** How many entries are not on disk yet. */
    public int waiting() {
        return waiting.size();
    }

    private void run() {
        try {
            while (!closed || !waiting.isEmpty()) {
                Waiting first = waiting.poll(100, TimeUnit.MILLISECONDS);
                if (first != null) {
                    List<Waiting> together = new ArrayList<>(List.of(first));
                    waiting.drainTo(together, TOGETHER);
                    write(together);
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void write(List<Waiting> together) throws InterruptedException {
        List<AccessEntry> entries = together.stream().map(Waiting::entry).toList();
        while (true) {
            try {
                log.addAlone(entries);
                together.forEach(it -> it.written().complete(null));
                return;
            } catch (DataAccessException | TransactionException e) {
                LOG.warn("the access log cannot be written: {}", e.getMessage());
                if (closed) {
                    LOG.error("the server stops, and {} entries of its access log were not written", entries.size());
                    return;
                }
                Thread.sleep(TRY_AGAIN.toMillis());
            }
        }
    }

    /** Writes what waits and takes nothing more. */
    @Override
    public void close() {
        closed = true;
        try {
            thread.join(STOP.toMillis());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
