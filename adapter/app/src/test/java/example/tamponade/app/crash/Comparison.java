package example.tamponade.app.crash;

import example.tamponade.app.crash.EventMaker.Made;
import example.tamponade.app.database.TestDatabase;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import tools.jackson.databind.json.JsonMapper;

/**
 * What the senders were told beside what the database holds.
 *
 * @param stored events in the ledger
 * @param lost acknowledged and not there
 * @param doubled there more than once
 * @param altered there with other content than was sent
 * @param unacknowledgedButStored there without the sender having been told, which is allowed
 * @param behind cases whose record is not up to the ledger
 */
record Comparison(int stored, long lost, long doubled, long altered, long unacknowledgedButStored, int behind) {

    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    static Comparison of(Tally tally, TestDatabase database) throws SQLException {
        Map<UUID, List<String>> ledger = new HashMap<>();
        int behind;
        try (Connection connection = database.connect();
                Statement statement = connection.createStatement()) {
            ResultSet rows = statement.executeQuery("select event_id, payload from ledger");
            while (rows.next()) {
                ledger.computeIfAbsent(UUID.fromString(rows.getString(1)), it -> new ArrayList<>())
                        .add(rows.getString(2));
            }
            ResultSet count = statement.executeQuery("""
                    select count(*) from
                    (select case_key, max(case_seq) as last from ledger group by case_key) l
                    left join checkpoint c on c.case_key = l.case_key
                    where c.case_seq is null or c.case_seq <> l.last""");
            count.next();
            behind = count.getInt(1);
        }
        Map<UUID, Made> sent = new HashMap<>(tally.acknowledged());
        sent.putAll(tally.unacknowledged());
        return new Comparison(
                ledger.size(),
                tally.acknowledged().keySet().stream()
                        .filter(it -> !ledger.containsKey(it))
                        .count(),
                ledger.values().stream().filter(it -> it.size() > 1).count(),
                ledger.entrySet().stream()
                        .filter(it -> !same(it.getValue().get(0), sent.get(it.getKey())))
                        .count(),
                ledger.keySet().stream()
                        .filter(tally.unacknowledged()::containsKey)
                        .count(),
                behind);
    }

    private static boolean same(String stored, Made sent) {
        return sent != null && MAPPER.readTree(stored).equals(MAPPER.readTree(sent.json()));
    }

    boolean whole() {
        return lost == 0 && doubled == 0 && altered == 0 && behind == 0;
    }
}
