package example.tamponade.app.outbox;

import example.tamponade.app.database.Database;
import java.util.List;
import org.springframework.jdbc.core.simple.JdbcClient;

/** How deliveries stand, for those who look after them. */
public final class OutboxStates {

    /** How many cases are listed at most. */
    public static final int MOST = 1000;

    private final JdbcClient jdbc;

    /** Tells of the outbox of that database. */
    public OutboxStates(Database database) {
        this.jdbc = database.jdbc();
    }

    /** How every destination stands. */
    public List<DestinationState> states() {
        return jdbc.sql("""
                        select d.name, d.problem, d.problem_at,
                            (select count(*) from outbox_case c where c.destination = d.name and c.state = 'waiting'),
                            (select count(*) from outbox_case c where c.destination = d.name and c.state = 'parked'),
                            (select count(*) from outbox o where o.destination = d.name),
                            (select min(since) from outbox_case c where c.destination = d.name)
                        from destination d order by d.name
                        """)
                .query((row, n) -> new DestinationState(
                        row.getString(1),
                        row.getLong(4),
                        row.getLong(5),
                        row.getLong(6),
                        row.getString(7),
                        row.getString(2),
                        row.getString(3)))
                .list();
    }

    /**
     * Cases of which something is due at a destination, those that have waited longest first.
     *
     * @throws NoSuchDestinationException when there was never such a destination
     */
    public List<OutboxEntry> entries(String destination, OutboxState state, int limit) {
        demand(destination);
        return jdbc.sql("""
                        select c.case_key, c.since, c.attempts, c.next_at, c.reason,
                            (select count(*) from outbox o
                             where o.destination = c.destination and o.case_key = c.case_key)
                        from outbox_case c where c.destination = :destination and c.state = :state
                        order by c.since, c.case_key limit :limit
                        """)
                .param("destination", destination)
                .param("state", state.code())
                .param("limit", limit)
                .query((row, n) -> new OutboxEntry(
                        destination,
                        row.getString(1),
                        row.getString(2),
                        row.getInt(3),
                        row.getString(4),
                        row.getLong(6),
                        row.getString(5)))
                .list();
    }

    /**
     * Demands that there is such a destination.
     *
     * @throws NoSuchDestinationException when there was never one
     */
    public void demand(String destination) {
        List<String> known = states().stream().map(DestinationState::name).toList();
        if (!known.contains(destination)) {
            throw new NoSuchDestinationException(destination, known);
        }
    }
}
