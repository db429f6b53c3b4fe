package example.tamponade.app.record;

import example.tamponade.app.database.Database;
import java.util.Collection;
import java.util.List;
import org.springframework.jdbc.core.JdbcTemplate;

/** Writes rows of the record, many in one batch. */
final class RecordWriter {

    private final JdbcTemplate jdbc;

    RecordWriter(Database database) {
        this.jdbc = database.batches();
    }

    /** Which resources a case is told by; those that it has already stay. */
    void addNames(String caseKey, Collection<String> names) {
        jdbc.batchUpdate(
                "insert into case_resource (case_key, type, id) values (?, ?, ?) on conflict do nothing",
                names.stream()
                        .map(it -> new Object[] {
                            caseKey, it.substring(0, it.indexOf('/')), it.substring(it.indexOf('/') + 1)
                        })
                        .toList());
    }

    void addVersions(List<StoredVersion> versions, String storedAt) {
        jdbc.batchUpdate(
                "insert into resource_version (type, id, version, content, stored_at) values (?, ?, ?, ?, ?)",
                versions.stream()
                        .map(it -> new Object[] {it.type(), it.id(), it.number(), it.content(), storedAt})
                        .toList());
    }
}
