package example.tamponade.bench;

import example.tamponade.app.database.Database;
import example.tamponade.app.database.DatabaseSettings;
import example.tamponade.app.formats.Formats;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.projection.CaseRecords;
import example.tamponade.app.path.EventPath;
import example.tamponade.app.path.IntakeWriter;
import example.tamponade.app.quarantine.Quarantine;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.app.records.RecordParts;
import example.tamponade.core.protocol.CareProtocol;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
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

/** How long does it take until a sample case of 247 events is on record: folded, mapped, checked and stored? */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3)
@Measurement(iterations = 5)
@Fork(1)
public class RecordBench {

    private static final String CASE = "case/FGL-2026-0117";
    private static final int WAITING = 8000;

    /** How many events have come since the case was last brought up to date. */
    @Param({"1", "10", "250"})
    int behind;

    private Database database;
    private IntakeWriter writer;
    private EventPath path;
    private CaseRecords records;
    private List<Piece> pieces;

    /** Opens an empty database. */
    @Setup(Level.Invocation)
    public void open() throws IOException {
        Clock clock = Clock.systemUTC();
        CareProtocol protocol = CareProtocol.standard();
        database = Database.open(
                new DatabaseSettings(Files.createTempDirectory(Path.of("target"), "bench"), null, null, null));
        Ledger ledger = new Ledger(database);
        writer = new IntakeWriter(database, ledger, new Quarantine(database), clock, WAITING);
        path = new EventPath(writer, null);
        records =
                new CaseRecords(protocol, database, ledger, new ResourceRecord(database), RecordParts.shared(), clock);
        pieces = pieces(new Formats(protocol, Facilities.NONE, clock));
    }

    private static List<Piece> pieces(Formats formats) throws IOException {
        List<Piece> pieces = new ArrayList<>();
        try (InputStream file = Files.newInputStream(Path.of("../../samples/events/settled.jsonl"));
                Pieces all = formats.of(InputFormat.EVENT).open(file)) {
            for (Piece piece = all.next(); piece != null; piece = all.next()) {
                pieces.add(piece);
            }
        }
        return pieces;
    }

    /** Puts the case on record. */
    @Benchmark
    public void record() {
        for (int from = 0; from < pieces.size(); from += behind) {
            path.take(pieces.subList(from, Math.min(pieces.size(), from + behind)));
            records.bringUpToDate(CASE);
        }
    }

    /** Closes the database. */
    @TearDown(Level.Invocation)
    public void close() {
        writer.close();
        database.close();
    }
}
