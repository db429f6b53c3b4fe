package example.tamponade.app.operate;

import example.tamponade.app.access.Caller;
import example.tamponade.app.correction.Corrections;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.DatabaseOptions;
import example.tamponade.app.formats.Formats;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.path.EventPath;
import example.tamponade.app.path.IntakeWriter;
import example.tamponade.app.quarantine.Quarantine;
import example.tamponade.core.protocol.CareProtocol;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import org.jspecify.annotations.Nullable;

/** Intake without a server. What it takes a server puts on record as soon as it runs. */
final class Station implements AutoCloseable {

    private static final int WAITING = 2 * IntakeWriter.COMMIT_SIZE;

    private final Database database;
    private final IntakeWriter writer;
    private final Quarantine quarantine;
    private final Formats formats;
    private final EventPath path;
    private final Clock clock;

    private Station(Database database, CareProtocol protocol, Facilities facilities, Clock clock) {
        this.database = database;
        this.quarantine = new Quarantine(database);
        this.writer = new IntakeWriter(database, new Ledger(database), quarantine, clock, WAITING);
        this.formats = new Formats(protocol, facilities, clock);
        this.path = new EventPath(writer);
        this.clock = clock;
    }

    static Station open(DatabaseOptions options, @Nullable Path protocol, Facilities facilities) throws IOException {
        return new Station(Database.open(options.settings()), CareProtocol.of(protocol), facilities, Clock.systemUTC());
    }

    /** Whoever runs the command, as the operating system calls him. */
    static Caller caller() {
        return Caller.by("command", System.getProperty("user.name", ""));
    }

    Formats formats() {
        return formats;
    }

    EventPath path() {
        return path;
    }

    Corrections corrections() {
        return new Corrections(quarantine, formats, path, clock);
    }

    @Override
    public void close() {
        writer.close();
        database.close();
    }
}
