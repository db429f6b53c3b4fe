package example.tamponade.app.projection;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import example.tamponade.app.database.Database;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.record.Checkpoint;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.app.record.SetAside;
import example.tamponade.app.records.RecordParts;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.protocol.CareProtocol;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.UnaryOperator;
import org.springframework.dao.DataAccessException;
import org.springframework.transaction.TransactionException;

/**
 * Brings the record of a case up to the ledger. One case is worked on by one thread at a time; the cases worked on last
 * stay in memory.
 */
public final class CaseRecords {

    private static final long CASES_IN_MEMORY = 500;

    // Nothing is awaited longer than a balloon may stay; events may come days late.
    private static final Duration LONGEST_STAY = Duration.ofDays(7);

    // So many events are at most one step: they are in memory together, and share a check and a commit.
    private static final int TOGETHER = 500;

    private final CareProtocol protocol;
    private final Ledger ledger;
    private final ResourceRecord record;
    private final CaseProjection projection;
    private final CaseLocks locks;
    private final Clock clock;
    private final Map<String, Instant> awaited = new ConcurrentHashMap<>();
    private final AtomicLong behind = new AtomicLong();
    private volatile long lastStep = System.nanoTime();
    private final Cache<String, ProjectedCase> open =
            Caffeine.newBuilder().maximumSize(CASES_IN_MEMORY).build();

    /** Works between the ledger and the record of that database. */
    public CaseRecords(
            CareProtocol protocol,
            Database database,
            Ledger ledger,
            ResourceRecord record,
            RecordParts parts,
            Clock clock) {
        this.protocol = protocol;
        this.ledger = ledger;
        this.record = record;
        this.projection = new CaseProjection(parts);
        this.locks = new CaseLocks(database);
        this.clock = clock;
    }

    /** The keys of the cases of which not everything that can be is on record. */
    public Set<String> behind() {
        Set<String> behind = new LinkedHashSet<>(ledger.behindCheckpoint());
        behind.addAll(record.setAsideByOthersThan(RecordParts.SOFTWARE_VERSION));
        return behind;
    }

    /** Is told of events that were added to the ledger. */
    public void added(long events) {
        behind.addAndGet(events);
    }

    /** How many events of the ledger are not on record yet, without asking the database. */
    public long eventsBehind() {
        return Math.max(0, behind.get());
    }

    /** How long ago events were put on record last. */
    public Duration sinceLastStep() {
        return Duration.ofNanos(System.nanoTime() - lastStep);
    }

    /** Asks the database how many events are not on record yet: others add to the ledger, or put on record, too. */
    public void countEventsBehind() {
        behind.set(ledger.eventsBehindCheckpoint());
    }

    /** Puts on record whatever the ledger holds of the case beyond it. */
    public void bringUpToDate(String caseKey) {
        while (bringOn(caseKey, TOGETHER) == TOGETHER) {
            // Others have their turn on the same lock in between.
            continue;
        }
    }

    /**
     * Puts on record what the ledger holds of the case beyond it, of very much the first.
     *
     * @param most how many events at most, no more than make one step
     * @return how many it was; fewer than the most when there are no more
     */
    public int bringOn(String caseKey, int most) {
        int[] count = new int[1];
        changed(caseKey, before -> {
            List<Ledger.Entry> step = next(before, most);
            count[0] = step.size();
            return step.isEmpty() ? before : advance(before, step);
        });
        return count[0];
    }

    /**
     * Puts on record the warnings that time alone has brought to an open case by now, as a deadline that passed. Asked
     * before a case is served.
     *
     * @return the case file up to now; empty of events when there is no such case
     */
    public CaseFile letTimePass(String caseKey) {
        bringUpToDate(caseKey);
        return changed(caseKey, before -> passTime(advance(before))).file();
    }

    /** The keys of the cases to which time alone has brought something by now that is not on record yet. */
    public List<String> awaitedByNow() {
        Instant now = clock.instant();
        return awaited.entrySet().stream()
                .filter(it -> it.getValue().isBefore(now))
                .map(Map.Entry::getKey)
                .toList();
    }

    /** The keys of the cases that may still be going on, whether they are in memory or not. */
    public List<String> recent() {
        return ledger.receivedSince(clock.instant().minus(LONGEST_STAY));
    }

    private ProjectedCase changed(String caseKey, UnaryOperator<ProjectedCase> work) {
        return locks.alone(caseKey, () -> {
            ProjectedCase before = open.getIfPresent(caseKey);
            ProjectedCase after = work.apply(before == null ? tryAgain(load(caseKey)) : before);
            open.put(caseKey, after);
            await(after);
            return after;
        });
    }

    /**
     * Lets time pass as {@link #letTimePass} does, unless the ledger has more of the case: that comes first, in its turn, and
     * may call off what time would bring.
     */
    public void letTimePassUnlessBehind(String caseKey) {
        changed(caseKey, before -> next(before, 1).isEmpty() ? passTime(before) : before);
    }

    private void await(ProjectedCase current) {
        CaseFile file = current.file();
        OffsetDateTime next = file.isOver() || file.isOfFacility() ? null : file.awaits();
        if (next == null) {
            awaited.remove(current.key());
        } else {
            awaited.put(current.key(), next.toInstant());
        }
    }

    private ProjectedCase passTime(ProjectedCase before) {
        if (before.file().isOver() || before.file().entries().isEmpty()) {
            return before;
        }
        // An adapter that took a further event has let time pass as well.
        return locks.holding(
                before.key(),
                () -> record.checkpoint(before.key()).seq() == before.seq()
                        ? projection.advanceTo(now(), before, record)
                        : before);
    }

    private OffsetDateTime now() {
        return OffsetDateTime.now(clock);
    }

    // What is on record already is folded without mapping it again.
    private ProjectedCase load(String caseKey) {
        ProjectedCase loaded = ProjectedCase.empty(caseKey, protocol).settingAside(record.setAside(caseKey));
        Checkpoint checkpoint = record.checkpoint(caseKey);
        for (Ledger.Entry entry : ledger.entries(caseKey, 0, checkpoint.seq())) {
            SetAside setAside = loaded.setAside().get(entry.seq());
            loaded = setAside == null
                    ? loaded.with(entry, loaded.file().apply(entry.event()))
                    : loaded.without(setAside);
        }
        ProjectedCase known = loaded.knowing(checkpoint.asOf());
        return checkpoint.known() ? known : passTime(known);
    }

    // What another version of this software failed at is tried once by this one.
    private ProjectedCase tryAgain(ProjectedCase loaded) {
        ProjectedCase now = loaded;
        for (SetAside event : loaded.setAside().values()) {
            boolean failedBefore = event.seq() <= loaded.seq();
            if (failedBefore && !event.software().equals(RecordParts.SOFTWARE_VERSION)) {
                now = tryAgain(now, event);
            }
        }
        return now;
    }

    private ProjectedCase tryAgain(ProjectedCase before, SetAside event) {
        Ledger.Entry entry =
                ledger.entries(before.key(), event.seq() - 1, event.seq()).get(0);
        return locks.holding(before.key(), () -> {
            try {
                ProjectedCase now = projection.again(before, entry, record);
                record.noLongerSetAside(before.key(), event, clock.instant());
                return now;
            } catch (DataAccessException | TransactionException e) {
                throw e;
            } catch (RuntimeException | StackOverflowError e) {
                SetAside still = new SetAside(event.seq(), event.event(), RecordParts.SOFTWARE_VERSION);
                record.setAside(before.key(), still, CaseProjection.reason(e));
                return before.without(still);
            }
        });
    }

    private ProjectedCase advance(ProjectedCase before) {
        ProjectedCase now = before;
        for (List<Ledger.Entry> step = next(now, TOGETHER); !step.isEmpty(); step = next(now, TOGETHER)) {
            now = advance(now, step);
        }
        return now;
    }

    private ProjectedCase advance(ProjectedCase from, List<Ledger.Entry> step) {
        ProjectedCase now = locks.holding(from.key(), () -> projection.advance(from, step, record));
        behind.addAndGet(-step.size());
        lastStep = System.nanoTime();
        return now;
    }

    private List<Ledger.Entry> next(ProjectedCase last, int most) {
        return ledger.entries(last.key(), last.seq(), last.seq() + most);
    }
}
