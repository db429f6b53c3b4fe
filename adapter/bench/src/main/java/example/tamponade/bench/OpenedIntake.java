package example.tamponade.bench;

import example.tamponade.app.access.Caller;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.DatabaseSettings;
import example.tamponade.app.formats.Formats;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.path.EventPath;
import example.tamponade.app.path.IntakeWriter;
import example.tamponade.app.path.Projector;
import example.tamponade.app.quarantine.Quarantine;
import example.tamponade.core.protocol.CareProtocol;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicLong;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;

/**
 * The database and what leads to it: an empty embedded one, or the PostgreSQL database that the environment variables
 * {@code TAMPONADE_DATABASE_URL}, {@code _USER} and {@code _PASSWORD} name.
 */
@State(Scope.Benchmark)
public class OpenedIntake {

    static final Caller BENCH = Caller.by("bench", "");

    // As the server has it where nothing else is set.
    private static final long MOST_BEHIND = 4000;

    private static final int WAITING = 8000;
    private static final int CASES = 20;

    private final AtomicLong seeds = new AtomicLong(System.nanoTime());
    private final AtomicLong seq = new AtomicLong(System.nanoTime());
    private Path folder;
    private Database database;
    private IntakeWriter writer;
    private EventPath path;
    private Formats formats;

    /** Opens it. */
    @Setup(Level.Trial)
    public void open() throws IOException {
        folder = Files.createTempDirectory(Path.of("target"), "bench");
        database = Database.open(new DatabaseSettings(
                folder,
                System.getenv("TAMPONADE_DATABASE_URL"),
                System.getenv("TAMPONADE_DATABASE_USER"),
                System.getenv("TAMPONADE_DATABASE_PASSWORD")));
        writer = new IntakeWriter(database, new Ledger(database), new Quarantine(database), Clock.systemUTC(), WAITING);
        path = new EventPath(writer);
        formats = new Formats(CareProtocol.standard(), Facilities.NONE, Clock.systemUTC());
    }

    /** Closes it. */
    @TearDown(Level.Trial)
    public void close() {
        writer.close();
        database.close();
    }

    /** The folder of the embedded database. */
    Path folder() {
        return folder;
    }

    Database database() {
        return database;
    }

    EventPath path() {
        return path;
    }

    /** Has what is taken from here on put on record behind the acknowledgement. */
    void project(Projector projector) {
        path = new EventPath(writer, projector, MOST_BEHIND);
    }

    Formats formats() {
        return formats;
    }

    long seed() {
        return seeds.incrementAndGet();
    }

    /** A finished row of the ledger that is not there yet. */
    Object[] row(String payload) {
        String digest = Piece.digest(payload);
        long place = seq.incrementAndGet();
        return new Object[] {
            "case/RAW-" + place % CASES,
            place,
            UUID.randomUUID().toString(),
            "2026-02-11T17:13:00.250Z",
            "event",
            digest,
            payload,
            digest
        };
    }
}
