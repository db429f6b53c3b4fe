package example.tamponade.app.ledger;

import example.tamponade.app.chain.CommitChain;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.Instants;
import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.intake.CaseOpenings;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.EventEnvelope;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * Which events have been accepted? Appends them, once each, every case a chain of its own. Several adapters can append to
 * one database: each locks the cases it appends to.
 */
public final class Ledger {

    private final Database database;
    private final JdbcClient jdbc;
    private final CommitChain commits;

    /** Keeps the ledger in that database. */
    public Ledger(Database database) {
        this.database = database;
        this.jdbc = database.jdbc();
        this.commits = new CommitChain(database);
    }

    /**
     * Appends events in one transaction. When this returns outside of another transaction they are committed to disk.
     *
     * @return what became of each, in their order
     */
    public List<Appended> append(List<Arrival> arrivals) {
        return database.transactions().execute(status -> inTransaction(arrivals));
    }

    private List<Appended> inTransaction(List<Arrival> arrivals) {
        Map<String, CaseEnd> ends = lockedEnds(arrivals);
        Map<UUID, EventEnvelope> known = known(arrivals);
        List<Appended> results = new ArrayList<>(arrivals.size());
        Additions additions = new Additions();
        Map<String, CaseOpenings> openings = openings(arrivals);
        for (Arrival arrival : arrivals) {
            EventEnvelope event = arrival.taken().event();
            EventEnvelope before = known.get(event.eventId());
            if (before != null) {
                results.add(SameEvent.same(before, event) ? Appended.ALREADY_STORED : Appended.CONFLICT);
            } else if (isOfAnotherCase(event, known)) {
                results.add(Appended.ANOTHER_CASE);
            } else if (isOfAnotherMother(event, openings)) {
                results.add(Appended.ANOTHER_MOTHER);
            } else {
                known.put(event.eventId(), event);
                ends.computeIfPresent(CaseKey.of(event), (key, end) -> additions.add(arrival, key, end));
                results.add(Appended.STORED);
            }
        }
        additions.write(database.batches(), ends);
        commits.add(ends.entrySet().stream()
                .filter(it -> it.getValue().moved())
                .map(it -> new KeptEnd(
                                it.getKey(), it.getValue().seq(), it.getValue().link())
                        .line())
                .toList());
        return results;
    }

    // What stands in place of an event is told by the same resources, which are of one case.
    private static boolean isOfAnotherCase(EventEnvelope event, Map<UUID, EventEnvelope> known) {
        UUID target = event.target();
        EventEnvelope named = target == null ? null : known.get(target);
        return named != null && !CaseKey.of(named).equals(CaseKey.of(event));
    }

    private static boolean isOfAnotherMother(EventEnvelope event, Map<String, CaseOpenings> openings) {
        CaseOpenings ofCase = openings.get(CaseKey.of(event));
        if (ofCase == null) {
            return false;
        }
        boolean another = ofCase.areOfAnother(event);
        if (!another) {
            ofCase.add(event);
        }
        return another;
    }

    // Of the cases that an opening comes for, before anything is added.
    private Map<String, CaseOpenings> openings(List<Arrival> arrivals) {
        Map<String, CaseOpenings> openings = new HashMap<>();
        for (Arrival arrival : arrivals) {
            EventEnvelope event = arrival.taken().event();
            if (event.data() instanceof CaseOpened) {
                openings.computeIfAbsent(CaseKey.of(event), this::openings);
            }
        }
        return openings;
    }

    // An escaped letter may hide the words that are looked for.
    private CaseOpenings openings(String key) {
        CaseOpenings openings = new CaseOpenings();
        jdbc.sql("""
                        select payload from ledger where case_key = :key
                        and (payload like '%"case-opened"%' or payload like '%"retracts"%'
                            or payload like '%\\u00%' escape '!')
                        order by case_seq
                        """)
                .param("key", key)
                .query((row, n) -> EventReader.stored(row.getString(1)))
                .list()
                .forEach(openings::add);
        return openings;
    }

    // In the order of the keys: two adapters that need the same cases never wait for each other crosswise.
    private Map<String, CaseEnd> lockedEnds(List<Arrival> arrivals) {
        TreeSet<String> keys = new TreeSet<>();
        arrivals.forEach(it -> keys.add(CaseKey.of(it.taken().event())));
        if (keys.isEmpty()) {
            return Map.of();
        }
        database.batches()
                .batchUpdate(
                        "insert into case_head (case_key, case_seq, link) values (?, 0, '') on conflict do nothing",
                        keys.stream().map(it -> new Object[] {it}).toList());
        Map<String, CaseEnd> ends = new TreeMap<>();
        jdbc.sql("select case_key, case_seq, link from case_head where case_key in (:keys) order by case_key"
                        + database.dialect().lockRows())
                .param("keys", keys)
                .query(row -> {
                    ends.put(row.getString(1), new CaseEnd(row.getLong(2), row.getString(3), false));
                });
        return ends;
    }

    private Map<UUID, EventEnvelope> known(List<Arrival> arrivals) {
        Map<UUID, EventEnvelope> known = new HashMap<>();
        Set<String> ids = new HashSet<>();
        for (Arrival arrival : arrivals) {
            EventEnvelope event = arrival.taken().event();
            ids.add(event.eventId().toString());
            if (event.target() != null) {
                ids.add(event.target().toString());
            }
        }
        if (!ids.isEmpty()) {
            jdbc.sql("select payload from ledger where event_id in (:ids)")
                    .param("ids", ids)
                    .query((row, n) -> EventReader.stored(row.getString(1)))
                    .list()
                    .forEach(it -> known.put(it.eventId(), it));
        }
        return known;
    }

    /**
     * The events of a case in the order they came.
     *
     * @param after only those behind this place in the case, 0 for all
     * @param upTo only those up to this place
     */
    public List<Entry> entries(String caseKey, long after, long upTo) {
        return jdbc.sql("""
                        select case_seq, digest, payload from ledger
                        where case_key = :caseKey and case_seq > :after and case_seq <= :upTo order by case_seq
                        """)
                .param("caseKey", caseKey)
                .param("after", after)
                .param("upTo", upTo)
                .query((row, n) -> new Entry(row.getLong(1), EventReader.stored(row.getString(3)), row.getString(2)))
                .list();
    }

    /**
     * Events of a case as they were taken, in JSON, in the order they came.
     *
     * @param after only those behind this place in the case
     * @param most how many at most
     */
    public List<String> payloads(String caseKey, long after, long most) {
        return jdbc.sql(
                        "select payload from ledger where case_key = :caseKey and case_seq > :after and case_seq <= :upTo"
                                + " order by case_seq")
                .param("caseKey", caseKey)
                .param("after", after)
                .param("upTo", after + most)
                .query(String.class)
                .list();
    }

    /** The keys of all cases and facilities with an event, in order. */
    public List<String> caseKeys() {
        return jdbc.sql("select case_key from case_head where case_seq > 0").query(String.class).list().stream()
                .sorted()
                .toList();
    }

    /** The keys of the cases and facilities with an event behind their checkpoint. */
    public List<String> behindCheckpoint() {
        return jdbc.sql("""
                        select h.case_key from case_head h left join checkpoint c on c.case_key = h.case_key
                        where h.case_seq > coalesce(c.case_seq, 0)
                        """).query(String.class).list();
    }

    /** The keys of the cases and facilities of which something was received since then. */
    public List<String> receivedSince(Instant then) {
        return jdbc.sql("select distinct case_key from ledger where received_at >= :then")
                .param("then", Instants.text(then))
                .query(String.class)
                .list();
    }

    /** How many events are behind the checkpoints of their cases and facilities. */
    public long eventsBehindCheckpoint() {
        return jdbc.sql("""
                        select coalesce(sum(h.case_seq - coalesce(c.case_seq, 0)), 0)
                        from case_head h left join checkpoint c on c.case_key = h.case_key
                        """).query(Long.class).single();
    }

    /** How many events there are. */
    public long size() {
        return jdbc.sql("select coalesce(sum(case_seq), 0) from case_head")
                .query(Long.class)
                .single();
    }

    /** The format that events are kept in; their payload is their original. */
    static boolean isOwnFormat(String format) {
        return format.equals(InputFormat.EVENT.code());
    }

    /**
     * An event of the ledger.
     *
     * @param seq its place in its case, from 1
     * @param event the event
     * @param digest SHA-256 of the bytes that came, lower-case hex
     */
    public record Entry(long seq, EventEnvelope event, String digest) {}
}
