package example.tamponade.app.path;

import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.records.NonconformingException;
import java.time.Clock;
import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The path of an event: intake, ledger, then case file, mapping, conformance and record. Every way in ends here.
 *
 * <p>Once the ledger has the event it is on disk; if the machine stops behind it, {@link #catchUp} puts on record what is
 * missing.
 */
public final class EventPath {

    private static final Logger LOG = LoggerFactory.getLogger(EventPath.class);

    private final EventReader intake;
    private final Ledger ledger;
    private final CaseRecords records;
    private final Clock clock;

    /** Leads events through these parts. */
    public EventPath(EventReader intake, Ledger ledger, CaseRecords records, Clock clock) {
        this.intake = intake;
        this.ledger = ledger;
        this.records = records;
        this.clock = clock;
    }

    /** Takes one event in JSON as it came; what is returned as stored is durable. */
    public Receipt take(byte[] bytes) {
        return take(List.of(new Piece(InputFormat.EVENT, "the event", bytes, intake.read(bytes))))
                .get(0);
    }

    /**
     * Takes pieces of an input. When this returns, every event that was taken is on disk.
     *
     * @return what became of each piece, in their order
     */
    public List<Receipt> take(List<Piece> pieces) {
        return pieces.stream().map(it -> taken(it.intake())).toList();
    }

    private Receipt taken(Intake read) {
        if (read instanceof Intake.Taken taken) {
            return take(taken);
        }
        return new Receipt.Refused(((Intake.Refused) read).reasons());
    }

    private Receipt take(Intake.Taken taken) {
        Ledger.Appended appended = ledger.append(taken, clock.instant());
        return switch (appended) {
            case STORED -> {
                records.bringUpToDate(CaseKey.of(taken.event()));
                yield new Receipt.Stored(taken.event().eventId(), false);
            }
            case ALREADY_STORED -> new Receipt.Stored(taken.event().eventId(), true);
            case CONFLICT ->
                new Receipt.Refused(List.of(Reason.conflict(taken.event().eventId())));
        };
    }

    /** Puts on record whatever the ledger holds beyond it, as after a stop of the machine. */
    public void catchUp() {
        for (String caseKey : ledger.caseKeys()) {
            try {
                records.bringUpToDate(caseKey);
            } catch (NonconformingException e) {
                // One case that this version cannot map must not keep the others from being served.
                LOG.error("{} stays behind the ledger", caseKey, e);
            }
        }
    }
}
