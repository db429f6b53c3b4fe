package example.tamponade.app.outbox;

import example.tamponade.app.database.Database;
import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What each destination holds, as far as it has said. */
public final class HeldResources {

    private final JdbcClient jdbc;
    private final JdbcTemplate batches;

    /** Kept in that database. */
    public HeldResources(Database database) {
        this.jdbc = database.jdbc();
        this.batches = database.batches();
    }

    /** What a destination holds of these resources, {@code Type/id}; those that it was never sent are not among them. */
    public Map<String, Held> of(String destination, Collection<String> names) {
        Map<String, Held> held = new HashMap<>();
        ResourceNames.byType(
                names,
                (type, ids) -> jdbc.sql("select id, digest, etag, their_id from delivered"
                                + " where destination = :destination and type = :type and id in (:ids)")
                        .param("destination", destination)
                        .param("type", type)
                        .param("ids", ids)
                        .query(row -> {
                            held.put(
                                    type + "/" + row.getString(1),
                                    new Held(row.getString(2), row.getString(3), row.getString(4)));
                        }));
        return held;
    }

    /** Forgets what a destination was thought to hold. */
    public void forget(String destination, Collection<String> names) {
        ResourceNames.byType(
                names,
                (type, ids) -> jdbc.sql(
                                "delete from delivered where destination = :destination and type = :type and id in (:ids)")
                        .param("destination", destination)
                        .param("type", type)
                        .param("ids", ids)
                        .update());
    }

    /** Keeps what a destination holds now. */
    public void keep(String destination, Map<String, Held> held) {
        batches.batchUpdate(
                """
                insert into delivered (destination, type, id, digest, etag, their_id) values (?, ?, ?, ?, ?, ?)
                on conflict (destination, type, id) do update
                set digest = excluded.digest, etag = excluded.etag, their_id = excluded.their_id
                """,
                held.entrySet().stream()
                        .map(it -> new Object[] {
                            destination,
                            it.getKey().substring(0, it.getKey().indexOf('/')),
                            it.getKey().substring(it.getKey().indexOf('/') + 1),
                            it.getValue().digest(),
                            it.getValue().etag(),
                            it.getValue().id()
                        })
                        .toList());
    }
}
