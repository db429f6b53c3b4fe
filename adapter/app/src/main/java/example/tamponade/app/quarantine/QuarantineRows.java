package example.tamponade.app.quarantine;

import example.tamponade.app.database.Instants;
import example.tamponade.app.intake.Original;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.springframework.jdbc.core.JdbcTemplate;

/** What one transaction adds to quarantine: gathered first, then written in a few statements over many rows. */
final class QuarantineRows {

    private final JdbcTemplate batches;
    private final List<Object[]> entries = new ArrayList<>();
    private final List<PieceKey> keys = new ArrayList<>();
    private final List<Object[]> steps = new ArrayList<>();

    QuarantineRows(JdbcTemplate batches) {
        this.batches = batches;
    }

    /** Writes what the refusals came in, each once. */
    void writeOriginals(List<Refusal> refusals) {
        Map<String, Original> originals = new LinkedHashMap<>();
        for (Refusal refusal : refusals) {
            Original original = refusal.piece().original();
            originals.putIfAbsent(original.digest(), original);
        }
        // One by one: several long originals are not held as text at the same time.
        originals.values().forEach(this::write);
    }

    private void write(Original original) {
        KeptBytes kept = KeptBytes.of(original.bytes());
        batches.update(
                "insert into refused_original (digest, length, encoding, content) values (?, ?, ?, ?)"
                        + " on conflict do nothing",
                original.digest(),
                original.length(),
                kept.encoding(),
                kept.content());
    }

    /** Adds an entry. */
    void add(UUID id, Refusal refusal) {
        entries.add(new Object[] {
            id.toString(),
            Instants.text(refusal.receivedAt()),
            refusal.piece().format().code(),
            refusal.piece().place(),
            QuarantineState.OPEN.code(),
            refusal.piece().original().digest(),
            refusal.piece().part()
        });
        steps.add(StepRows.row(id, 0, QuarantineStep.refusal(refusal)));
        keys.add(PieceKey.of(refusal.piece()));
    }

    /** What was added. */
    List<PieceKey> keys() {
        return keys;
    }

    /** Writes the entries that were added. */
    void write() {
        if (!entries.isEmpty()) {
            batches.batchUpdate("""
                insert into quarantine (id, received_at, format, place, state, digest, part) values (?, ?, ?, ?, ?, ?, ?)
                """, entries);
            batches.batchUpdate(StepRows.INSERT, steps);
        }
    }
}
