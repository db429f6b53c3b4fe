package example.tamponade.app.path;

import example.tamponade.app.access.Caller;
import example.tamponade.app.database.Database;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.quarantine.Quarantine;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Set;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.dao.DataIntegrityViolationException;

/**
 * Writes down what is handed in, many senders' pieces in one commit: the longer a commit takes, the more of them share the
 * next one. A piece is either an event in the ledger or a refusal in quarantine; both are on disk before its receipt is
 * given. What waits is bounded.
 */
public final class IntakeWriter implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(IntakeWriter.class);

    /** The most pieces that share a commit, and the most that may be handed in at once. */
    public static final int COMMIT_SIZE = 1000;

    private static final Duration STOP = Duration.ofSeconds(30);

    // Large pieces take more of the room, so that what waits is bounded in bytes too.
    private static final int BYTES_OF_ONE = 16 << 10;

    private final GroupWrite write;
    private final int capacity;
    private final Semaphore room;
    private final BlockingQueue<Job> waiting = new LinkedBlockingQueue<>();
    private final Thread thread;
    private volatile boolean closed;

    /**
     * Writes to that database.
     *
     * @param capacity how many pieces may wait, at least two commits; a piece counts once more for every 16 KiB
     */
    public IntakeWriter(Database database, Ledger ledger, Quarantine quarantine, Clock clock, int capacity) {
        this.write = new GroupWrite(database, ledger, quarantine, clock);
        this.capacity = Math.max(capacity, 2 * COMMIT_SIZE);
        this.room = new Semaphore(this.capacity, true);
        this.thread = new Thread(this::run, "intake-writer");
        this.thread.setDaemon(true);
        this.thread.start();
    }

    record Job(Caller by, List<Piece> pieces, int room, boolean keepRefused, CompletableFuture<List<Receipt>> done) {}

    /**
     * Hands in pieces if there is room.
     *
     * @param by whose they are
     * @param keepRefused whether what is refused goes to quarantine
     * @throws IntakeFullException when there is no room
     */
    CompletableFuture<List<Receipt>> offer(Caller by, List<Piece> pieces, boolean keepRefused) {
        int needed = roomFor(pieces);
        if (!room.tryAcquire(needed)) {
            throw new IntakeFullException(waitingPieces() + " pieces are waiting to be written down");
        }
        return enqueue(by, pieces, needed, keepRefused);
    }

    /** Hands in pieces as soon as there is room. */
    CompletableFuture<List<Receipt>> put(Caller by, List<Piece> pieces) throws InterruptedException {
        int needed = roomFor(pieces);
        room.acquire(needed);
        return enqueue(by, pieces, needed, true);
    }

    private int roomFor(List<Piece> pieces) {
        Set<Original> originals = Collections.newSetFromMap(new IdentityHashMap<>());
        pieces.forEach(it -> originals.add(it.original()));
        long needed = pieces.size()
                + originals.stream().mapToLong(it -> it.length() / BYTES_OF_ONE).sum();
        return (int) Math.min(needed, capacity);
    }

    private CompletableFuture<List<Receipt>> enqueue(Caller by, List<Piece> pieces, int needed, boolean keepRefused) {
        Job job = new Job(by, pieces, needed, keepRefused, new CompletableFuture<>());
        waiting.add(job);
        if (closed && waiting.remove(job)) {
            room.release(needed);
            throw new IntakeFullException("the adapter is stopping");
        }
        return job.done();
    }

    /** How many pieces may wait. */
    public int capacity() {
        return capacity;
    }

    /** How many pieces wait now. */
    public int waitingPieces() {
        return capacity - room.availablePermits();
    }

    private void run() {
        try {
            while (!closed || !waiting.isEmpty()) {
                Job first = waiting.poll(100, TimeUnit.MILLISECONDS);
                if (first != null) {
                    write(group(first));
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private List<Job> group(Job first) {
        List<Job> group = new ArrayList<>(List.of(first));
        int pieces = first.pieces().size();
        for (Job next = waiting.peek();
                next != null && pieces + next.pieces().size() <= COMMIT_SIZE;
                next = waiting.peek()) {
            group.add(waiting.remove());
            pieces += next.pieces().size();
        }
        return group;
    }

    private void write(List<Job> group) {
        try {
            List<List<Receipt>> receipts = write.write(group);
            for (int i = 0; i < group.size(); i++) {
                room.release(group.get(i).room());
                group.get(i).done().complete(receipts.get(i));
            }
        } catch (DataIntegrityViolationException e) {
            if (group.size() > 1) {
                // What one sender's pieces hold must not keep the others' from being written.
                group.forEach(it -> write(List.of(it)));
            } else {
                fail(group, e);
            }
        } catch (RuntimeException | StackOverflowError e) {
            // Whatever goes wrong with one group, its senders are told and the next group is written.
            fail(group, e);
        }
    }

    private void fail(List<Job> group, Throwable failure) {
        LedgerFailedException told = LedgerFailures.of(failure);
        LOG.error("{} inputs {}", group.size(), told.getMessage());
        for (Job job : group) {
            room.release(job.room());
            job.done().completeExceptionally(told);
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
