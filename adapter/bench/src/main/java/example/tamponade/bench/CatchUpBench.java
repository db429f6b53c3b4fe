package example.tamponade.bench;

import example.tamponade.app.path.IntakeFullException;
import example.tamponade.app.path.Projector;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.LongAdder;
import java.util.concurrent.locks.LockSupport;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Senders of single events for a minute, each of its own cases, as fast as they are acknowledged: how long after the last
 * acknowledgement is everything on record? What was acknowledged is printed.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 0)
@Measurement(iterations = 1)
@Fork(1)
public class CatchUpBench {

    private static final int EVENTS_OF_A_CASE = 250;

    /** How many send. */
    @Param("64")
    int senders;

    /** For how many seconds. */
    @Param("60")
    int seconds;

    private OpenedIntake intake;
    private OpenedRecord record;
    private Projector projector;

    /** Sends. */
    @Setup(Level.Invocation)
    public void send() throws IOException, InterruptedException {
        intake = new OpenedIntake();
        intake.open();
        record = new OpenedRecord(intake);
        projector = record.projector();
        projector.start();
        intake.project(projector);
        LongAdder acknowledged = new LongAdder();
        long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(seconds);
        List<Thread> threads = new ArrayList<>();
        for (int sender = 0; sender < senders; sender++) {
            NewEvents events = new NewEvents(intake.seed(), Integer.MAX_VALUE);
            int first = sender * 100_000;
            Thread thread = new Thread(() -> {
                for (int i = 0; System.nanoTime() < end; i++) {
                    if (taken(events.next(first + i / EVENTS_OF_A_CASE), end)) {
                        acknowledged.increment();
                    }
                }
            });
            threads.add(thread);
            thread.start();
        }
        for (Thread thread : threads) {
            thread.join();
        }
        System.out.println(acknowledged.sum() / seconds + " events a second acknowledged");
    }

    // As a sender does that is told that the record is behind: it sends the same again.
    private boolean taken(String event, long end) {
        while (System.nanoTime() < end) {
            try {
                record.take(event);
                return true;
            } catch (IntakeFullException full) {
                LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(100));
            }
        }
        return false;
    }

    /** Waits until everything is on record. */
    @Benchmark
    public void catchUp() throws InterruptedException {
        while (record.isBehind()) {
            Thread.sleep(10);
        }
    }

    /** Closes the database. */
    @TearDown(Level.Invocation)
    public void close() {
        projector.close();
        intake.close();
    }
}
