package example.tamponade.app.ledger;

import example.tamponade.app.database.Instants;
import example.tamponade.core.event.EventEnvelope;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.springframework.jdbc.core.JdbcTemplate;

/** What one transaction appends: gathered first, then written in a few statements over many rows. */
final class Additions {

    private final List<Object[]> rows = new ArrayList<>();
    private final Map<String, byte[]> originals = new LinkedHashMap<>();
    private final Set<List<String>> facilities = new LinkedHashSet<>();

    /** Adds an event at the end of its case; gives the end behind it. */
    CaseEnd add(Arrival arrival, String caseKey, CaseEnd end) {
        String format = arrival.format().code();
        String digest = arrival.taken().digest();
        LedgerRow row = new LedgerRow(
                caseKey,
                end.seq() + 1,
                arrival.taken().event().eventId().toString(),
                Instants.text(arrival.receivedAt()),
                format,
                digest,
                arrival.taken().payload());
        String link = row.link(end.link());
        rows.add(new Object[] {
            row.caseKey(),
            row.caseSeq(),
            row.eventId(),
            row.receivedAt(),
            row.format(),
            row.digest(),
            row.payload(),
            link
        });
        EventEnvelope event = arrival.taken().event();
        facilities.add(List.of(caseKey, event.facilityId()));
        if (event.caseId() != null) {
            facilities.add(List.of(caseKey, event.caseId().facilityId()));
        }
        if (!Ledger.isOwnFormat(format)) {
            originals.put(digest, arrival.original().bytes());
        }
        return new CaseEnd(row.caseSeq(), link, true);
    }

    void write(JdbcTemplate batches, Map<String, CaseEnd> ends) {
        if (rows.isEmpty()) {
            return;
        }
        batches.batchUpdate("""
                insert into ledger (case_key, case_seq, event_id, received_at, format, digest, payload, link)
                values (?, ?, ?, ?, ?, ?, ?, ?)
                """, rows);
        batches.batchUpdate(
                "insert into original (digest, content) values (?, ?) on conflict do nothing",
                originals.entrySet().stream()
                        .map(it -> new Object[] {it.getKey(), it.getValue()})
                        .toList());
        batches.batchUpdate(
                "insert into case_facility (case_key, facility_id) values (?, ?) on conflict do nothing",
                facilities.stream().map(List::toArray).toList());
        batches.batchUpdate(
                "update case_head set case_seq = ?, link = ? where case_key = ?",
                ends.entrySet().stream()
                        .filter(it -> it.getValue().moved())
                        .map(it ->
                                new Object[] {it.getValue().seq(), it.getValue().link(), it.getKey()})
                        .toList());
    }
}
