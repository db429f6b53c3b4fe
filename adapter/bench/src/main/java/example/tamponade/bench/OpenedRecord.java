package example.tamponade.bench;

import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.outbox.Outbox;
import example.tamponade.app.path.Projector;
import example.tamponade.app.projection.CaseRecords;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.app.records.RecordParts;
import example.tamponade.core.protocol.CareProtocol;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;

/** The record behind an opened intake. */
final class OpenedRecord {

    private final OpenedIntake intake;
    private final Ledger ledger;
    private final CaseRecords records;

    OpenedRecord(OpenedIntake intake) {
        this.intake = intake;
        this.ledger = new Ledger(intake.database());
        this.records = new CaseRecords(
                CareProtocol.standard(),
                intake.database(),
                ledger,
                new ResourceRecord(
                        intake.database(), new Outbox(intake.database(), Clock.systemUTC()), Clock.systemUTC()),
                RecordParts.shared(),
                Clock.systemUTC());
    }

    /** Brings cases up to the ledger behind the acknowledgement, as on the server. */
    Projector projector() {
        return new Projector(records, Clock.systemUTC());
    }

    boolean isBehind() {
        return !ledger.behindCheckpoint().isEmpty();
    }

    /** Takes pieces and puts them on record. */
    void put(List<Piece> pieces) {
        intake.path().take(OpenedIntake.BENCH, pieces);
        bringUpToDate();
    }

    /** Puts on record what was taken. */
    void bringUpToDate() {
        ledger.behindCheckpoint().forEach(records::bringUpToDate);
    }

    /** Takes an event of a case and puts it on record. */
    void put(String event, int number) {
        take(event);
        records.bringUpToDate("case/fernglade-hp/" + NewEvents.caseId(number));
    }

    /** Takes an event; one that is refused would measure nothing. */
    void take(String event) {
        List<Piece> pieces = pieces(event.getBytes(StandardCharsets.UTF_8));
        if (!(pieces.get(0).intake() instanceof Intake.Taken)) {
            throw new IllegalStateException("refused: " + pieces.get(0).intake());
        }
        intake.path().take(OpenedIntake.BENCH, pieces);
    }

    /** The pieces of a file of events. */
    List<Piece> pieces(byte[] lines) {
        List<Piece> pieces = new ArrayList<>();
        try (Pieces all = intake.formats().of(InputFormat.EVENT).open(new ByteArrayInputStream(lines))) {
            for (Piece piece = all.next(); piece != null; piece = all.next()) {
                pieces.add(piece);
            }
        } catch (IOException e) {
            throw new IllegalStateException("bytes in memory cannot be read", e);
        }
        return pieces;
    }
}
