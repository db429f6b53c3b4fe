package example.tamponade.app.quarantine;

import example.tamponade.app.database.Database;
import example.tamponade.app.database.Instants;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What was refused, and what became of it? Keeps it whole and tells it. */
public final class Quarantine {

    private final Database database;
    private final JdbcClient jdbc;

    /** Keeps it in that database. */
    public Quarantine(Database database) {
        this.database = database;
        this.jdbc = database.jdbc();
    }

    /** Keeps refusals, in the transaction under way if there is one. What is there already stays as it is. */
    public void keep(List<Refusal> refusals) {
        if (!refusals.isEmpty()) {
            database.transactions().executeWithoutResult(status -> {
                database.batches()
                        .batchUpdate("""
                        insert into quarantine (id, received_at, format, place, state, length, encoding, content)
                        values (?, ?, ?, ?, ?, ?, ?, ?) on conflict do nothing
                        """, refusals.stream().map(Quarantine::row).toList());
                database.batches()
                        .batchUpdate(
                                StepRows.INSERT,
                                refusals.stream()
                                        .map(it -> StepRows.row(it.id(), 0, QuarantineStep.refusal(it)))
                                        .toList());
            });
        }
    }

    private static Object[] row(Refusal refusal) {
        KeptBytes content = KeptBytes.of(refusal.piece().original());
        return new Object[] {
            refusal.id().toString(),
            Instants.text(refusal.receivedAt()),
            refusal.piece().format().code(),
            refusal.piece().place(),
            QuarantineState.OPEN.code(),
            refusal.piece().length(),
            content.encoding(),
            content.content()
        };
    }

    /**
     * Adds a step to an entry's history.
     *
     * @param entry the entry as it was read
     * @param state the entry's state from now on
     * @return whether the step was added; false when the entry has moved on since it was read
     */
    public boolean add(QuarantineEntry entry, QuarantineStep step, QuarantineState state) {
        return Boolean.TRUE.equals(database.transactions().execute(status -> {
            int number = entry.steps().size();
            boolean added = database.batches().update(StepRows.INSERT, StepRows.row(entry.id(), number, step)) == 1;
            if (added) {
                database.batches()
                        .update(
                                "update quarantine set state = ? where id = ?",
                                state.code(),
                                entry.id().toString());
            }
            return added;
        }));
    }

    /** Says that an entry of an event of the ledger has been put on record after all. */
    public void putOnRecord(UUID id, Instant at) {
        entry(id)
                .filter(it -> it.state() == QuarantineState.OPEN)
                .ifPresent(it -> add(it, QuarantineStep.putOnRecord(at), QuarantineState.TAKEN));
    }

    /** An entry with its history; empty when there is none of that id. */
    public Optional<QuarantineEntry> entry(UUID id) {
        return jdbc
                .sql("select * from quarantine where id = :id")
                .param("id", id.toString())
                .query(QuarantineEntry::of)
                .list()
                .stream()
                .findFirst()
                .map(this::withHistory);
    }

    /** Entries with their history, the oldest first. */
    public List<QuarantineEntry> entries(QuarantineFilter filter) {
        Map<String, Object> values = new HashMap<>();
        String where = filter.where(values);
        values.put("limit", filter.limit());
        return jdbc
                .sql("select * from quarantine q where " + where + " order by q.received_at, q.id limit :limit")
                .params(values)
                .query(QuarantineEntry::of)
                .list()
                .stream()
                .map(this::withHistory)
                .toList();
    }

    /** How many entries are in that state. */
    public long count(QuarantineState state) {
        return jdbc.sql("select count(*) from quarantine where state = :state")
                .param("state", state.code())
                .query(Long.class)
                .single();
    }

    private QuarantineEntry withHistory(QuarantineEntry entry) {
        return entry.with(
                new ArrayList<>(jdbc.sql("select * from quarantine_step where quarantine_id = :id order by step")
                        .param("id", entry.id().toString())
                        .query((row, n) -> StepRows.step(row))
                        .list()));
    }
}
