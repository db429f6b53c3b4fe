package example.tamponade.app.outbox;

import example.tamponade.app.database.Database;
import example.tamponade.app.database.Instants;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionOperations;

/** What is due, where: written with what goes on record, and again for a destination that is new or asks for it. */
public final class Outbox {

    /** Why a case is parked whose mother refused; it is looked at again whenever something of it is added. */
    public static final String NOT_SHARED =
            "the mother refused that her record is shared; where a rule demands it all the same, set restricted for this"
                    + " destination, restart and release the case";

    /** Why a case is parked whose mother the destination cannot find; it is looked at again whenever something is added. */
    public static final String NO_IDENTIFIER =
            "the mother has no identifier of the system in mother-by of this destination, by which it would find her;"
                    + " correct the event that opened the case, or change the setting, restart and release the case";

    private final JdbcClient jdbc;
    private final JdbcTemplate batches;
    private final TransactionOperations transactions;
    private final Clock clock;

    /** The outbox of that database; times are told by that clock. */
    public Outbox(Database database, Clock clock) {
        this.jdbc = database.jdbc();
        this.batches = database.batches();
        this.transactions = database.transactions();
        this.clock = clock;
    }

    /** Has new versions delivered to every destination; called in the transaction that puts them on record. */
    public void add(String caseKey, List<DueResource> versions) {
        List<String> destinations = versions.isEmpty() ? List.of() : destinations();
        for (String destination : destinations) {
            addCase(destination, caseKey);
        }
        batches.batchUpdate(
                """
                insert into outbox (destination, case_key, type, id, version) values (?, ?, ?, ?, ?)
                on conflict (destination, case_key, type, id) do update set version = excluded.version
                """,
                destinations.stream()
                        .flatMap(destination -> versions.stream()
                                .map(it -> new Object[] {destination, caseKey, it.type(), it.id(), it.version()}))
                        .toList());
    }

    private List<String> destinations() {
        return jdbc.sql("select name from destination order by name")
                .query(String.class)
                .list();
    }

    // A row that is there is written too: whoever finishes with the case waits for it, and then sees what was added.
    // What was
    // added may be that she agrees, or her identifier.
    private void addCase(String destination, String caseKey) {
        jdbc.sql("""
                        insert into outbox_case
                            (destination, case_key, since, state, attempts, next_at, leased_until, reason)
                        values (:destination, :caseKey, :now, 'waiting', 0, '', '', '')
                        on conflict (destination, case_key) do update set state =
                            case when outbox_case.reason in (:mended) then 'waiting' else outbox_case.state end
                        """)
                .param("mended", List.of(NOT_SHARED, NO_IDENTIFIER))
                .param("destination", destination)
                .param("caseKey", caseKey)
                .param("now", now())
                .update();
    }

    /**
     * Makes a destination known. One that is new, or at another address, or that is to get something else than before, gets
     * everything on record.
     *
     * @param address where it is; what it held at another address is not there
     * @param selection what it gets, in words that are the same as long as that is
     */
    public void register(String destination, String address, String selection) {
        transactions.executeWithoutResult(status -> {
            jdbc.sql("""
                            insert into destination (name, address, selection, problem, problem_at)
                            values (:name, '', '', '', '')
                            on conflict (name) do update set problem = destination.problem
                            """).param("name", destination).update();
            if (isAlready("address", address, destination) && isAlready("selection", selection, destination)) {
                return;
            }
            jdbc.sql(
                            isAlready("address", address, destination)
                                    ? "update delivered set digest = '' where destination = :destination"
                                    : "delete from delivered where destination = :destination")
                    .param("destination", destination)
                    .update();
            jdbc.sql("update destination set address = :address, selection = :selection where name = :name")
                    .param("address", address)
                    .param("selection", selection)
                    .param("name", destination)
                    .update();
            addAll(destination, "", "");
        });
    }

    /** Makes a destination known that gets what goes on record from now on. */
    public void collectFromNow(String destination, String address, String selection) {
        jdbc.sql("""
                        insert into destination (name, address, selection, problem, problem_at)
                        values (:name, :address, :selection, '', '')
                        """)
                .param("name", destination)
                .param("address", address)
                .param("selection", selection)
                .update();
    }

    private boolean isAlready(String column, String value, String destination) {
        return jdbc.sql("select " + column + " from destination where name = :name")
                .param("name", destination)
                .query(String.class)
                .single()
                .equals(value);
    }

    /**
     * Has everything on record of a case, or of all, sent again to a destination, whether it has it or not.
     *
     * @param caseKey the case or facility; empty: all
     * @param since only what went on record then or later, and what nobody knows the time of; null: all
     * @return how many resources are due then
     */
    public long sendAgain(String destination, String caseKey, @Nullable Instant since) {
        return transactions.execute(status -> {
            addAll(destination, caseKey, since == null ? "" : Instants.text(since));
            jdbc.sql("""
                            delete from delivered where destination = :destination
                              and exists (select 1 from outbox o where o.destination = delivered.destination
                                          and o.type = delivered.type and o.id = delivered.id)
                            """).param("destination", destination).update();
            return count(destination, caseKey);
        });
    }

    private long count(String destination, String caseKey) {
        return jdbc.sql(
                        "select count(*) from outbox where destination = :destination and (:caseKey = '' or case_key = :caseKey)")
                .param("destination", destination)
                .param("caseKey", caseKey)
                .query(Long.class)
                .single();
    }

    private void addAll(String destination, String caseKey, String since) {
        jdbc.sql("""
                        insert into outbox_case
                            (destination, case_key, since, state, attempts, next_at, leased_until, reason)
                        select distinct :destination, n.case_key, :now, 'waiting', 0, '', '', '' from case_resource n
                        join current_version c on c.type = n.type and c.id = n.id
                        where (:caseKey = '' or n.case_key = :caseKey)
                          and (c.stored_at >= :since or c.stored_at = '')
                        on conflict (destination, case_key) do update set since = outbox_case.since
                        """)
                .param("destination", destination)
                .param("caseKey", caseKey)
                .param("since", since)
                .param("now", now())
                .update();
        jdbc.sql("""
                        insert into outbox (destination, case_key, type, id, version)
                        select :destination, n.case_key, n.type, n.id, c.version
                        from case_resource n join current_version c on c.type = n.type and c.id = n.id
                        where (:caseKey = '' or n.case_key = :caseKey)
                          and (c.stored_at >= :since or c.stored_at = '')
                        on conflict (destination, case_key, type, id) do update set version = excluded.version
                        """)
                .param("destination", destination)
                .param("caseKey", caseKey)
                .param("since", since)
                .update();
    }

    /**
     * Forgets a destination: what is due there, and what it holds. A server whose settings still name it takes it for a new
     * one when it starts, and sends it everything.
     *
     * @return how many resources were due
     */
    public long forget(String destination) {
        return transactions.execute(status -> {
            for (String table : List.of("outbox_case", "delivered")) {
                jdbc.sql("delete from " + table + " where destination = :destination")
                        .param("destination", destination)
                        .update();
            }
            long due = jdbc.sql("delete from outbox where destination = :destination")
                    .param("destination", destination)
                    .update();
            jdbc.sql("delete from destination where name = :destination")
                    .param("destination", destination)
                    .update();
            return due;
        });
    }

    /**
     * Has parked cases tried again.
     *
     * @param caseKey the case or facility; empty: all that are parked
     * @return how many there were
     */
    public int release(String destination, String caseKey) {
        return jdbc.sql("""
                        update outbox_case set state = 'waiting', attempts = 0, next_at = ''
                        where destination = :destination and state = 'parked'
                          and (:caseKey = '' or case_key = :caseKey)
                        """)
                .param("destination", destination)
                .param("caseKey", caseKey)
                .update();
    }

    private String now() {
        return Instants.text(clock.instant());
    }
}
