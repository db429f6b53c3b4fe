package example.tamponade.app.path;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Samples;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.formats.Formats;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.quarantine.Quarantine;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.app.records.RecordParts;
import example.tamponade.core.protocol.CareProtocol;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class CaseRecordsIT {

    private static final CareProtocol PROTOCOL = CareProtocol.standard();
    private static final Clock CLOCK = Clock.systemUTC();

    // How many events had come when the projector looked is chance; every version on record must be the same all the
    // same.
    @Test
    void eventsThatWaitedTogetherLeaveTheVersionsOfEventsOneByOne() throws IOException {
        List<Piece> pieces = lateAndCorrected();

        List<String> together = versions(pieces, pieces.size());

        assertThat(together).hasSizeGreaterThan(pieces.size()).isEqualTo(versions(pieces, 1));
        assertThat(together).anyMatch(it -> it.contains("\"status\":\"amended\""));
        assertThat(together).anyMatch(it -> it.contains("\"status\":\"entered-in-error\""));
    }

    // As much of a case as has late events, corrections and retractions.
    private static List<Piece> lateAndCorrected() throws IOException {
        List<Piece> pieces = new ArrayList<>();
        try (Pieces all = new Formats(PROTOCOL, Facilities.NONE, CLOCK)
                .of(InputFormat.EVENT)
                .open(new ByteArrayInputStream(Samples.events("messy")))) {
            for (Piece piece = all.next(); piece != null && pieces.size() < 75; piece = all.next()) {
                pieces.add(piece);
            }
        }
        return pieces;
    }

    private static List<String> versions(List<Piece> pieces, int together) throws IOException {
        try (TestDatabase where = TestDatabase.of(TestDatabase.Kind.SQLITE);
                Database database = Database.open(where.settings());
                IntakeWriter writer =
                        new IntakeWriter(database, new Ledger(database), new Quarantine(database), CLOCK, 4000)) {
            Ledger ledger = new Ledger(database);
            ResourceRecord record = new ResourceRecord(database);
            CaseRecords records = new CaseRecords(PROTOCOL, database, ledger, record, RecordParts.shared(), CLOCK);
            EventPath path = new EventPath(writer, null);
            for (int from = 0; from < pieces.size(); from += together) {
                path.take(pieces.subList(from, Math.min(pieces.size(), from + together)));
                ledger.behindCheckpoint().forEach(records::bringUpToDate);
            }
            return database.jdbc()
                    .sql("select type || '/' || id || ' ' || version || ' ' || content from resource_version"
                            + " order by type, id, version")
                    .query(String.class)
                    .list();
        }
    }
}
