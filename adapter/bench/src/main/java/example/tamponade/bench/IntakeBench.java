package example.tamponade.bench;

import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.path.Receipt;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Threads;
import org.openjdk.jmh.annotations.Warmup;

/**
 * How many events a second are acknowledged, that is on disk, beside what the same database on the same disk commits when
 * finished rows of the same size are only inserted.
 *
 * <p>The embedded database, or the PostgreSQL database that the environment variables {@code TAMPONADE_DATABASE_URL},
 * {@code _USER} and {@code _PASSWORD} name; it is filled with invented events.
 */
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Warmup(iterations = 5, time = 2)
@Measurement(iterations = 5, time = 3)
@Fork(1)
public class IntakeBench {

    /** How many events a batch has. */
    static final int BATCH = 5000;

    private static final int COMMIT = 500;
    private static final int CASES = 20;

    private static final String INSERT = """
            insert into ledger (case_key, case_seq, event_id, received_at, format, digest, payload, link)
            values (?, ?, ?, ?, ?, ?, ?, ?)
            """;

    /** Finished rows. */
    @State(Scope.Thread)
    public static class Rows {

        private List<Object[]> rows;

        /** Makes rows that are not in the table yet. */
        @Setup(Level.Invocation)
        public void make(OpenedIntake opened) {
            NewEvents events = new NewEvents(opened.seed(), CASES);
            rows = new ArrayList<>(BATCH);
            for (int i = 0; i < BATCH; i++) {
                rows.add(opened.row(events.next()));
            }
        }
    }

    /** A file of events. */
    @State(Scope.Thread)
    public static class Lines {

        private byte[] bytes;

        /** Makes events that nobody has sent yet. */
        @Setup(Level.Invocation)
        public void make(OpenedIntake opened) {
            bytes = new NewEvents(opened.seed(), CASES).lines(BATCH);
        }
    }

    /** A sender of single events. */
    @State(Scope.Thread)
    public static class Sender {

        private NewEvents events;

        /** Begins with nothing sent. */
        @Setup(Level.Trial)
        public void begin(OpenedIntake opened) {
            events = new NewEvents(opened.seed(), CASES);
        }
    }

    /** The database alone: one row a commit. */
    @Benchmark
    public void databaseSingle(OpenedIntake opened, Sender sender) {
        opened.database().batches().update(INSERT, opened.row(sender.events.next()));
    }

    /** The database alone: rows in commits of 500. */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public void databaseBatched(OpenedIntake opened, Rows rows) {
        for (int from = 0; from < BATCH; from += COMMIT) {
            List<Object[]> commit = rows.rows.subList(from, from + COMMIT);
            opened.database()
                    .transactions()
                    .executeWithoutResult(status -> opened.database().batches().batchUpdate(INSERT, commit));
        }
    }

    /** Intake: one sender, one event after the other. */
    @Benchmark
    public Receipt intakeSingle(OpenedIntake opened, Sender sender) {
        return send(opened, sender);
    }

    /** Intake: sixteen senders, each one event after the other. */
    @Benchmark
    @Threads(16)
    public Receipt intakeSingleOfSixteen(OpenedIntake opened, Sender sender) {
        return send(opened, sender);
    }

    private static Receipt send(OpenedIntake opened, Sender sender) {
        Original original = Original.of(sender.events.next().getBytes(StandardCharsets.UTF_8));
        Piece piece = new Piece(
                InputFormat.EVENT,
                "the event",
                original,
                opened.formats().reader().read(original));
        return opened.path().take(OpenedIntake.BENCH, List.of(piece)).get(0);
    }

    /** Intake: a file of events, one a line. */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public long intakeBatched(OpenedIntake opened, Lines lines) throws IOException {
        long[] stored = new long[1];
        try (Pieces pieces = opened.formats().of(InputFormat.EVENT).open(new ByteArrayInputStream(lines.bytes))) {
            opened.path()
                    .takeAll(
                            OpenedIntake.BENCH,
                            pieces,
                            (piece, receipt) -> stored[0] += receipt instanceof Receipt.Stored ? 1 : 0);
        }
        if (stored[0] != BATCH) {
            throw new IllegalStateException(stored[0] + " of " + BATCH + " stored");
        }
        return stored[0];
    }
}
