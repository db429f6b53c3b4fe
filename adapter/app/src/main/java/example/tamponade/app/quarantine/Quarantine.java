package example.tamponade.app.quarantine;

import example.tamponade.app.chain.CommitChain;
import example.tamponade.app.database.Database;
import example.tamponade.app.intake.Piece;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What was refused, and what became of it? Keeps it whole and tells it. */
public final class Quarantine {

    private static final String ENTRIES =
            "select q.*, o.length, s.reasons from quarantine q join refused_original o on o.digest = q.digest"
                    + " join quarantine_step s on s.quarantine_id = q.id and s.step = 0 ";

    private final Database database;
    private final JdbcClient jdbc;
    private final CommitChain commits;

    /** Keeps it in that database. */
    public Quarantine(Database database) {
        this.database = database;
        this.jdbc = database.jdbc();
        this.commits = new CommitChain(database);
    }

    /**
     * Keeps refusals, in the transaction under way if there is one. What is there already stays as it is.
     *
     * @return the id of each one's entry, in their order
     */
    public List<UUID> keep(List<Refusal> refusals) {
        return refusals.isEmpty()
                ? List.of()
                : Objects.requireNonNull(database.transactions().execute(status -> inTransaction(refusals)));
    }

    private List<UUID> inTransaction(List<Refusal> refusals) {
        // This writes: beside another process it waits here for its turn, before anything has been read.
        QuarantineRows rows = new QuarantineRows(database.batches());
        rows.writeOriginals(refusals);
        Map<PieceKey, UUID> ids = known(refusals);
        List<UUID> each = new ArrayList<>();
        for (Refusal refusal : refusals) {
            PieceKey key = PieceKey.of(refusal.piece());
            UUID id = ids.get(key);
            if (id == null) {
                // Nobody who has not been told the id can guess it.
                id = UUID.randomUUID();
                ids.put(key, id);
                rows.add(id, refusal);
            }
            each.add(id);
        }
        rows.write();
        commits.add(rows.keys().stream().map(PieceKey::line).toList());
        return each;
    }

    private Map<PieceKey, UUID> known(List<Refusal> refusals) {
        Map<PieceKey, UUID> known = new HashMap<>();
        Set<String> digests =
                refusals.stream().map(it -> it.piece().original().digest()).collect(Collectors.toSet());
        jdbc.sql("select id, digest, format, part from quarantine where digest in (:digests)")
                .param("digests", digests)
                .query(row -> {
                    known.put(
                            new PieceKey(row.getString("digest"), row.getString("format"), row.getString("part")),
                            UUID.fromString(row.getString("id")));
                });
        return known;
    }

    /**
     * Adds a step to an entry's history.
     *
     * @param whole the entry as it was read
     * @param state the entry's state from now on
     * @return whether the step was added; false when the entry has moved on since it was read
     */
    public boolean add(WholeEntry whole, QuarantineStep step, QuarantineState state) {
        QuarantineEntry entry = whole.entry();
        return Boolean.TRUE.equals(database.transactions().execute(status -> {
            int number = whole.steps().size();
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

    /** Says that an event of the ledger that is kept here has been put on record after all. */
    public void putOnRecord(Piece event, Instant at) {
        PieceKey key = PieceKey.of(event);
        jdbc.sql("select id from quarantine where digest = :digest and format = :format and part = :part")
                .param("digest", key.digest())
                .param("format", key.format())
                .param("part", key.part())
                .query(String.class)
                .optional()
                .flatMap(it -> entry(UUID.fromString(it)))
                .filter(it -> it.entry().state() == QuarantineState.OPEN)
                .ifPresent(it -> add(it, QuarantineStep.putOnRecord(at), QuarantineState.TAKEN));
    }

    /** An entry with what came and its history; empty when there is none of that id. */
    public Optional<WholeEntry> entry(UUID id) {
        return jdbc.sql(ENTRIES + "where q.id = :id")
                .param("id", id.toString())
                .query(QuarantineEntry::of)
                .optional()
                .map(it -> new WholeEntry(it, content(it), history(it)));
    }

    /** Entries, the oldest first, without what came. */
    public List<QuarantineEntry> entries(QuarantineFilter filter) {
        Map<String, Object> values = new HashMap<>();
        String where = filter.where(values);
        values.put("limit", filter.limit());
        return jdbc.sql(ENTRIES + "where " + where + " order by q.received_at, q.id limit :limit")
                .params(values)
                .query(QuarantineEntry::of)
                .list();
    }

    /** How many entries are in that state. */
    public long count(QuarantineState state) {
        return jdbc.sql("select count(*) from quarantine where state = :state")
                .param("state", state.code())
                .query(Long.class)
                .single();
    }

    private KeptBytes content(QuarantineEntry entry) {
        return jdbc.sql("select o.encoding, o.content from refused_original o join quarantine q on q.digest = o.digest"
                        + " where q.id = :id")
                .param("id", entry.id().toString())
                .query((row, n) -> new KeptBytes(row.getString("encoding"), row.getString("content")))
                .single();
    }

    private List<QuarantineStep> history(QuarantineEntry entry) {
        return jdbc.sql("select * from quarantine_step where quarantine_id = :id order by step")
                .param("id", entry.id().toString())
                .query((row, n) -> StepRows.step(row))
                .list();
    }
}
