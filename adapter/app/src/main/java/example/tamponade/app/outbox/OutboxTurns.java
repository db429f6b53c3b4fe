package example.tamponade.app.outbox;

import example.tamponade.app.database.Database;
import example.tamponade.app.database.Instants;
import java.time.Clock;
import java.time.Duration;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionOperations;

/**
 * Whose turn it is at a destination. A case has one turn at a time, by a lease, so that whoever holds it may take as long as
 * a network does without holding the database.
 */
public final class OutboxTurns {

    private static final String NEVER = "";

    private final JdbcClient jdbc;
    private final JdbcTemplate batches;
    private final TransactionOperations transactions;
    private final Clock clock;

    /** The turns of the outbox of that database; times are told by that clock. */
    public OutboxTurns(Database database, Clock clock) {
        this.jdbc = database.jdbc();
        this.batches = database.batches();
        this.transactions = database.transactions();
        this.clock = clock;
    }

    /**
     * Takes the next case that is due at a destination, for as long as the lease lasts.
     *
     * @param oldestFirst whether the case is taken that has waited longest, or the one that has waited shortest
     * @return the case; empty when none is due, or another adapter was quicker
     */
    public Optional<DueCase> claim(String destination, boolean oldestFirst, Duration lease) {
        // Asked first, so that nothing is written as long as nothing is due.
        return next(destination, oldestFirst).flatMap(it -> claim(destination, it, lease));
    }

    private Optional<String> next(String destination, boolean oldestFirst) {
        String order = oldestFirst ? "asc" : "desc";
        return jdbc.sql("select case_key from outbox_case where destination = :destination and state = 'waiting'"
                        + " and next_at <= :now and leased_until < :now"
                        + " order by since " + order + ", case_key " + order + " limit 1")
                .param("destination", destination)
                .param("now", now())
                .query(String.class)
                .optional();
    }

    private Optional<DueCase> claim(String destination, String caseKey, Duration lease) {
        return jdbc.sql("""
                        update outbox_case set leased_until = :until
                        where destination = :destination and case_key = :caseKey
                          and state = 'waiting' and leased_until < :now
                        returning attempts
                        """)
                .param("destination", destination)
                .param("caseKey", caseKey)
                .param("now", now())
                .param("until", in(lease))
                .query((row, n) -> new DueCase(caseKey, row.getInt(1)))
                .optional();
    }

    /** Takes back every case that is held, where nobody else can hold one. */
    public void takeBack(String destination) {
        jdbc.sql("update outbox_case set leased_until = '' where destination = :destination and leased_until <> ''")
                .param("destination", destination)
                .update();
    }

    /** Goes on holding a case. */
    public void renew(String destination, String caseKey, Duration lease) {
        ofCase("update outbox_case set leased_until = :until", destination, caseKey)
                .param("until", in(lease))
                .update();
    }

    /** What of a case is due. */
    public List<DueResource> due(String destination, String caseKey) {
        return ofCase("select type, id, version from outbox", destination, caseKey)
                .query((row, n) -> new DueResource(row.getString(1), row.getString(2), row.getInt(3)))
                .list();
    }

    /** Says that a destination has these versions; others of the case stay due, and so do later ones of the same. */
    public void delivered(String destination, String caseKey, Collection<DueResource> versions) {
        transactions.executeWithoutResult(status -> {
            // First, so that whoever adds to the case meanwhile waits or is seen below.
            ofCase("update outbox_case set attempts = 0, reason = ''", destination, caseKey)
                    .update();
            batches.batchUpdate(
                    "delete from outbox where destination = ? and case_key = ? and type = ? and id = ? and version <= ?",
                    versions.stream()
                            .map(it -> new Object[] {destination, caseKey, it.type(), it.id(), it.version()})
                            .toList());
        });
    }

    /** Gives a case back: gone when nothing of it is due any more, otherwise due again at once. */
    public void finish(String destination, String caseKey) {
        transactions.executeWithoutResult(status -> {
            ofCase("update outbox_case set leased_until = ''", destination, caseKey)
                    .update();
            ofCase(
                            "delete from outbox_case",
                            destination,
                            caseKey,
                            " and not exists (select 1 from outbox o"
                                    + " where o.destination = :destination and o.case_key = :caseKey)")
                    .update();
        });
    }

    /** Gives a case back to be tried again. */
    public void tryLater(String destination, String caseKey, Duration wait, String reason) {
        ofCase(
                        "update outbox_case set attempts = attempts + 1, next_at = :next, leased_until = '', reason = :reason",
                        destination,
                        caseKey)
                .param("next", in(wait))
                .param("reason", reason)
                .update();
    }

    /** Gives a case back that the destination refuses. */
    public void park(String destination, String caseKey, String reason) {
        ofCase(
                        "update outbox_case set state = 'parked', attempts = attempts + 1, leased_until = '', reason = :reason",
                        destination,
                        caseKey)
                .param("reason", reason)
                .update();
    }

    /** Says what keeps everything from being delivered to a destination; empty when nothing does. */
    public void problem(String destination, String words) {
        jdbc.sql("""
                        update destination set problem = :words, problem_at = :at
                        where name = :destination and (:words <> '' or problem <> '')
                        """)
                .param("words", words)
                .param("at", words.isEmpty() ? NEVER : now())
                .param("destination", destination)
                .update();
    }

    private JdbcClient.StatementSpec ofCase(String statement, String destination, String caseKey) {
        return ofCase(statement, destination, caseKey, "");
    }

    private JdbcClient.StatementSpec ofCase(String statement, String destination, String caseKey, String further) {
        return jdbc.sql(statement + " where destination = :destination and case_key = :caseKey" + further)
                .param("destination", destination)
                .param("caseKey", caseKey);
    }

    private String now() {
        return Instants.text(clock.instant());
    }

    private String in(Duration wait) {
        return Instants.text(clock.instant().plus(wait));
    }
}
