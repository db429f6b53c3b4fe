package example.tamponade.app.path;

import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.intake.EventLine;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Intake;
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

    /** Takes one line of several as it came; what is returned as stored is durable. */
    public Receipt take(EventLine line) {
        return taken(intake.read(line));
    }

    /** Takes one event as it came; what is returned as stored is durable. */
    public Receipt take(byte[] bytes) {
        return taken(intake.read(bytes));
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
