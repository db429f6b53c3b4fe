package example.tamponade.bench;

import example.tamponade.app.intake.Piece;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
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
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;

/** How long does it take until sample cases are on record: taken, folded, mapped, checked and stored? */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5)
@Measurement(iterations = 5)
@Fork(1)
public class RecordBench {

    /** How many events have come since the cases were last brought up to date. */
    @Param({"1", "10", "1000"})
    int behind;

    /** Which cases, joined by {@code +}: one of 247 events, or five of 1,071. */
    @Param({"settled", "settled+referred+bled-again+warnings+messy"})
    String cases = "settled";

    private OpenedIntake intake;
    private OpenedRecord record;
    private List<Piece> pieces;

    /** Opens an empty database. */
    @Setup(Level.Invocation)
    public void open() throws IOException {
        intake = new OpenedIntake();
        intake.open();
        record = new OpenedRecord(intake);
        pieces = new ArrayList<>();
        for (String name : cases.split("\\+", -1)) {
            pieces.addAll(record.pieces(Files.readAllBytes(Path.of("../../samples/events/" + name + ".jsonl"))));
        }
    }

    /** Puts the cases on record. */
    @Benchmark
    public void record() {
        for (int from = 0; from < pieces.size(); from += behind) {
            record.put(pieces.subList(from, Math.min(pieces.size(), from + behind)));
        }
    }

    /** Closes the database. */
    @TearDown(Level.Invocation)
    public void close() {
        intake.close();
    }
}
