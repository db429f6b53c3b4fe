package example.tamponade.app.delivery;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.crash.Waiting;
import example.tamponade.app.database.TestDatabase;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;

/** What arrived at a server, held against what is on record. */
final class Arrival {

    private static final Duration LONGEST = Duration.ofSeconds(10);

    private Arrival() {}

    /** Nothing lost: the latest is there. Nothing doubled: no version twice. In order: as the versions on record are. */
    static void assertArrived(TestDatabase database, FhirStore store) {
        // Time may have brought something while we looked.
        Waiting.until(
                LONGEST,
                "the latest of everything is there",
                () -> differences(onRecord(database), store.latest()).isEmpty());
        Map<String, List<String>> record = versions(database);
        assertThat(record).isNotEmpty();
        assertThat(store.versions().entrySet().stream()
                        .filter(it -> !isPartOf(it.getValue(), record.get(it.getKey())))
                        .map(Map.Entry::getKey))
                .isEmpty();
    }

    private static boolean isPartOf(List<String> arrived, List<String> onRecord) {
        int place = 0;
        for (String version : arrived) {
            while (place < onRecord.size() && !onRecord.get(place).equals(version)) {
                place++;
            }
            if (place == onRecord.size()) {
                return false;
            }
            place++;
        }
        return true;
    }

    static List<String> differences(Map<String, String> some, Map<String, String> others) {
        return Stream.concat(some.keySet().stream(), others.keySet().stream())
                .distinct()
                .filter(it -> !String.valueOf(some.get(it)).equals(others.get(it)))
                .toList();
    }

    static Map<String, String> onRecord(TestDatabase database) {
        Map<String, String> latest = new TreeMap<>();
        versions(database).forEach((name, contents) -> latest.put(name, contents.get(contents.size() - 1)));
        return latest;
    }

    private static Map<String, List<String>> versions(TestDatabase database) {
        Map<String, List<String>> versions = new TreeMap<>();
        try (Connection connection = database.connect();
                Statement statement = connection.createStatement();
                ResultSet rows = statement.executeQuery(
                        "select type, id, content from resource_version order by type, id, version")) {
            while (rows.next()) {
                versions.computeIfAbsent(rows.getString(1) + "/" + rows.getString(2), key -> new ArrayList<>())
                        .add(rows.getString(3));
            }
        } catch (SQLException e) {
            throw new IllegalStateException(e);
        }
        return versions;
    }
}
