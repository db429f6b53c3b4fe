package example.tamponade.bench;

import java.util.concurrent.TimeUnit;
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
import org.openjdk.jmh.annotations.Warmup;

/**
 * How long does it take from one event of an open case to its resources on record, and does that grow with the number of
 * cases, or with the number of events of the case?
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 5)
@Measurement(iterations = 3, time = 5)
@Fork(1)
public class OneEventBench {

    /** How many open cases there are, and how many events each has: {@code cases x events}. */
    @Param({"1x10", "1000x10", "10000x1", "1x10000"})
    String open = "1x10";

    private OpenedRecord record;
    private NewEvents events;
    private int cases;
    private int next;

    /** Puts the cases on record. */
    @Setup(Level.Trial)
    public void open(OpenedIntake intake) {
        String[] sizes = open.split("x", -1);
        cases = Integer.parseInt(sizes[0]);
        record = new OpenedRecord(intake);
        events = new NewEvents(intake.seed(), cases);
        for (int i = 0; i < Integer.parseInt(sizes[1]); i++) {
            for (int number = 0; number < cases; number++) {
                record.take(events.next(number));
            }
        }
        record.bringUpToDate();
    }

    /** Puts the next event of the next case on record. */
    @Benchmark
    public void event() {
        int number = next++ % cases;
        record.put(events.next(number), number);
    }
}
