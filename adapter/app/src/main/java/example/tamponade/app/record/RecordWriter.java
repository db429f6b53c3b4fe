package example.tamponade.app.record;

import example.tamponade.app.database.Database;
import java.util.Collection;
import java.util.List;
import org.jspecify.annotations.Nullable;
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

    void addVersions(List<Object[]> rows) {
        jdbc.batchUpdate("insert into resource_version (type, id, version, content) values (?, ?, ?, ?)", rows);
    }

    /** The row of a version that follows the latest. */
    static Object[] row(NewVersion version, ResourceRecord.@Nullable Version latest) {
        int slash = version.name().indexOf('/');
        return new Object[] {
            version.name().substring(0, slash),
            version.name().substring(slash + 1),
            latest == null ? 1 : latest.number() + 1,
            version.json()
        };
    }
}
