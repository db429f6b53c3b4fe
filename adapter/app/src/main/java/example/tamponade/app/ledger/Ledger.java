package example.tamponade.app.ledger;

import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Intake;
import example.tamponade.core.event.EventEnvelope;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Which events have been accepted? Appends them durably, once each. */
public final class Ledger {

    private final JdbcClient jdbc;

    /** Keeps the ledger in that database. */
    public Ledger(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** What became of an event that was to be appended. */
    public enum Appended {
        /** It is on disk now. */
        STORED,
        /** The same event was there already. */
        ALREADY_STORED,
        /** Another event has its id; nothing was stored. */
        CONFLICT
    }

    /**
     * Appends an event. When this returns {@link Appended#STORED} the event is committed to disk.
     *
     * @param receivedAt when it came
     */
    public Appended append(Intake.Taken taken, Instant receivedAt) {
        EventEnvelope event = taken.event();
        int rows = jdbc.sql("""
                        insert into ledger (event_id, case_key, received_at, digest, payload)
                        values (:eventId, :caseKey, :receivedAt, :digest, :payload)
                        on conflict (event_id) do nothing
                        """)
                .param("eventId", event.eventId().toString())
                .param("caseKey", CaseKey.of(event))
                .param("receivedAt", receivedAt.toString())
                .param("digest", taken.digest())
                .param("payload", taken.payload())
                .update();
        if (rows == 1) {
            return Appended.STORED;
        }
        return stored(event.eventId()).filter(event::equals).isPresent() ? Appended.ALREADY_STORED : Appended.CONFLICT;
    }

    /**
     * The events of a case in the order they came.
     *
     * @param after only those behind this place in the ledger
     * @param upTo only those up to this place
     */
    public List<Entry> entries(String caseKey, long after, long upTo) {
        return jdbc.sql("""
                        select seq, digest, payload from ledger
                        where case_key = :caseKey and seq > :after and seq <= :upTo order by seq
                        """)
                .param("caseKey", caseKey)
                .param("after", after)
                .param("upTo", upTo)
                .query((row, n) -> new Entry(
                        row.getLong("seq"), EventReader.stored(row.getString("payload")), row.getString("digest")))
                .list();
    }

    /** The keys of all cases and facilities with an event, in order. */
    public List<String> caseKeys() {
        return jdbc.sql("select distinct case_key from ledger order by case_key")
                .query(String.class)
                .list();
    }

    private Optional<EventEnvelope> stored(UUID eventId) {
        return jdbc.sql("select payload from ledger where event_id = :eventId")
                .param("eventId", eventId.toString())
                .query((row, n) -> EventReader.stored(row.getString("payload")))
                .optional();
    }

    /**
     * A row of the ledger.
     *
     * @param seq its place in the ledger
     * @param event the event
     * @param digest SHA-256 of the text that came, lower-case hex
     */
    public record Entry(long seq, EventEnvelope event, String digest) {}
}
