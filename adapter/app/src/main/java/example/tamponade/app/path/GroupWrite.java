package example.tamponade.app.path;

import example.tamponade.app.access.AccessEntry;
import example.tamponade.app.access.AccessLog;
import example.tamponade.app.access.Caller;
import example.tamponade.app.database.Database;
import example.tamponade.app.intake.CaseKey;
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
import java.util.UUID;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.ConcurrencyFailureException;
import org.springframework.dao.DuplicateKeyException;

/** Writes the pieces of several senders in one transaction: events to the ledger, refusals to quarantine. */
final class GroupWrite {

    private static final int ATTEMPTS = 5;

    private final Database database;
    private final Ledger ledger;
    private final Quarantine quarantine;
    private final AccessLog accessLog;
    private final Clock clock;

    GroupWrite(Database database, Ledger ledger, Quarantine quarantine, Clock clock) {
        this.database = database;
        this.ledger = ledger;
        this.quarantine = quarantine;
        this.accessLog = new AccessLog(database);
        this.clock = clock;
    }

    /** The receipts of each job; committed to disk, to files that are still there. */
    List<List<Receipt>> write(List<IntakeWriter.Job> group) {
        List<List<Receipt>> receipts = committed(group);
        database.demandSameFiles();
        return receipts;
    }

    private List<List<Receipt>> committed(List<IntakeWriter.Job> group) {
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
        List<List<Outcome>> outcomes = group.stream()
                .map(job -> job.pieces().stream()
                        .map(it -> outcome(it, appended, job.keepRefused()))
                        .toList())
                .toList();
        List<Refusal> refusals = outcomes.stream()
                .flatMap(List::stream)
                .filter(Outcome::toBeKept)
                .map(it -> new Refusal(it.piece(), it.reasons(), now))
                .toList();
        Iterator<UUID> kept = quarantine.keep(refusals).iterator();
        accessLog.add(IntStream.range(0, group.size())
                .mapToObj(it -> entry(group.get(it).by(), outcomes.get(it), now))
                .toList());
        return outcomes.stream()
                .map(job -> job.stream().map(it -> it.receipt(kept)).toList())
                .toList();
    }

    private static AccessEntry entry(Caller by, List<Outcome> outcomes, Instant now) {
        List<String> cases = outcomes.stream()
                .filter(it -> it.stored() != null)
                .map(it -> CaseKey.of(((Intake.Taken) it.piece().intake()).event()))
                .distinct()
                .toList();
        int taken = (int) outcomes.stream().filter(it -> it.stored() != null).count();
        return AccessEntry.ofInput(now, by, taken, outcomes.size() - taken, cases);
    }

    /** What became of a piece: an event that is in the ledger, or reasons against it. */
    private record Outcome(Piece piece, Receipt.@Nullable Stored stored, List<Reason> reasons, boolean keepRefused) {

        boolean toBeKept() {
            return stored == null && keepRefused;
        }

        Receipt receipt(Iterator<UUID> kept) {
            return stored == null ? new Receipt.Refused(toBeKept() ? kept.next() : null, reasons) : stored;
        }
    }

    private static Outcome outcome(Piece piece, Iterator<Appended> appended, boolean keep) {
        if (piece.intake() instanceof Intake.Refused refused) {
            return new Outcome(piece, null, refused.reasons(), keep);
        }
        UUID id = ((Intake.Taken) piece.intake()).event().eventId();
        Appended result = appended.next();
        return switch (result) {
            case STORED -> new Outcome(piece, new Receipt.Stored(id, false), List.of(), keep);
            case ALREADY_STORED -> new Outcome(piece, new Receipt.Stored(id, true), List.of(), keep);
            case CONFLICT -> new Outcome(piece, null, List.of(Reason.conflict(id)), keep);
            case ANOTHER_CASE -> new Outcome(piece, null, List.of(Reason.anotherCase()), keep);
            case ANOTHER_MOTHER -> new Outcome(piece, null, List.of(Reason.anotherMother()), keep);
        };
    }
}
