package example.tamponade.app.path;

import example.tamponade.app.database.Database;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.ledger.Appended;
import example.tamponade.app.ledger.Arrival;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.quarantine.Quarantine;
import example.tamponade.app.quarantine.Refusal;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.springframework.dao.ConcurrencyFailureException;
import org.springframework.dao.DuplicateKeyException;

/** Writes the pieces of several senders in one transaction: events to the ledger, refusals to quarantine. */
final class GroupWrite {

    private static final int ATTEMPTS = 5;

    private final Database database;
    private final Ledger ledger;
    private final Quarantine quarantine;
    private final Clock clock;

    GroupWrite(Database database, Ledger ledger, Quarantine quarantine, Clock clock) {
        this.database = database;
        this.ledger = ledger;
        this.quarantine = quarantine;
        this.clock = clock;
    }

    /** The receipts of each job; committed to disk. */
    List<List<Receipt>> write(List<IntakeWriter.Job> group) {
        Instant now = clock.instant();
        for (int attempt = 1; ; attempt++) {
            try {
                return database.transactions().execute(status -> inTransaction(group, now));
            } catch (DuplicateKeyException | ConcurrencyFailureException e) {
                // Another adapter took an event of the same id into another case at the same time; the next attempt
                // sees it.
                if (attempt == ATTEMPTS) {
                    throw e;
                }
            }
        }
    }

    private List<List<Receipt>> inTransaction(List<IntakeWriter.Job> group, Instant now) {
        List<Arrival> arrivals = new ArrayList<>();
        for (IntakeWriter.Job job : group) {
            for (Piece piece : job.pieces()) {
                if (piece.intake() instanceof Intake.Taken taken) {
                    arrivals.add(new Arrival(taken, piece.format(), piece.original(), now));
                }
            }
        }
        Iterator<Appended> appended = ledger.append(arrivals).iterator();
        List<List<Receipt>> receipts = new ArrayList<>();
        List<Refusal> refusals = new ArrayList<>();
        for (IntakeWriter.Job job : group) {
            receipts.add(job.pieces().stream()
                    .map(it -> receipt(it, appended, job.keepRefused(), now, refusals))
                    .toList());
        }
        quarantine.keep(refusals);
        return receipts;
    }

    private static Receipt receipt(
            Piece piece, Iterator<Appended> appended, boolean keep, Instant now, List<Refusal> refusals) {
        if (piece.intake() instanceof Intake.Taken taken) {
            Appended result = appended.next();
            return result == Appended.CONFLICT
                    ? refused(piece, List.of(Reason.conflict(taken.event().eventId())), keep, now, refusals)
                    : new Receipt.Stored(taken.event().eventId(), result == Appended.ALREADY_STORED);
        }
        return refused(piece, ((Intake.Refused) piece.intake()).reasons(), keep, now, refusals);
    }

    private static Receipt refused(
            Piece piece, List<Reason> reasons, boolean keep, Instant now, List<Refusal> refusals) {
        Refusal refusal = new Refusal(piece, reasons, now);
        if (keep) {
            refusals.add(refusal);
        }
        return new Receipt.Refused(refusal.id(), reasons);
    }
}
