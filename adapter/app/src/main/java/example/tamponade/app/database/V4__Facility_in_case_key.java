package example.tamponade.app.database;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.flywaydb.core.api.migration.BaseJavaMigration;
import org.flywaydb.core.api.migration.Context;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Copies the former ledger under keys with the facility in them. A facility that opened a case of that number has a case of
 * its own; what other facilities sent belongs to the one that opened it first, or that sent first when none did.
 *
 * <p>It shares no class with the ledger: what a version of the tables meant does not change.
 */
final class V4__Facility_in_case_key extends BaseJavaMigration {

    private static final String CASE = "case/";

    private record Row(
            String eventId, String receivedAt, String format, String digest, String payload, long formerSeq) {}

    @Override
    public void migrate(Context context) throws SQLException {
        Connection connection = context.getConnection();
        List<String> ends = new ArrayList<>();
        for (String former : keys(connection)) {
            for (Map.Entry<String, List<Row>> rows :
                    byKey(former, rows(former, connection)).entrySet()) {
                String link = copy(rows.getKey(), rows.getValue(), connection);
                if (!rows.getKey().equals(former)) {
                    ends.add("case " + link + " " + rows.getValue().size() + " " + rows.getKey());
                    moveSetAside(former, rows.getKey(), rows.getValue(), connection);
                }
            }
        }
        if (!ends.isEmpty()) {
            commit(String.join("\n", ends), connection);
        }
    }

    private static List<String> keys(Connection connection) throws SQLException {
        List<String> keys = new ArrayList<>();
        try (PreparedStatement select = connection.prepareStatement(
                        "select case_key from former_case_head where case_seq > 0 order by case_key");
                ResultSet found = select.executeQuery()) {
            while (found.next()) {
                keys.add(found.getString(1));
            }
        }
        return keys;
    }

    private static List<Row> rows(String key, Connection connection) throws SQLException {
        List<Row> rows = new ArrayList<>();
        try (PreparedStatement select =
                connection.prepareStatement("select event_id, received_at, format, digest, payload, case_seq"
                        + " from former_ledger where case_key = ? order by case_seq")) {
            select.setString(1, key);
            try (ResultSet found = select.executeQuery()) {
                while (found.next()) {
                    rows.add(new Row(
                            found.getString(1),
                            found.getString(2),
                            found.getString(3),
                            found.getString(4),
                            found.getString(5),
                            found.getLong(6)));
                }
            }
        }
        return rows;
    }

    private static Map<String, List<Row>> byKey(String former, List<Row> rows) {
        if (!former.startsWith(CASE)) {
            return Map.of(former, rows);
        }
        Set<String> owners = new LinkedHashSet<>();
        for (Row row : rows) {
            JsonNode event = JsonMapper.shared().readTree(row.payload());
            if (event.path("type").asString("").equals("case-opened")) {
                owners.add(facility(row));
            }
        }
        String first =
                owners.isEmpty() ? facility(rows.get(0)) : owners.iterator().next();
        Map<String, List<Row>> byKey = new TreeMap<>();
        for (Row row : rows) {
            String owner = owners.contains(facility(row)) ? facility(row) : first;
            byKey.computeIfAbsent(CASE + owner + "/" + former.substring(CASE.length()), key -> new ArrayList<>())
                    .add(row);
        }
        return byKey;
    }

    private static String facility(Row row) {
        return JsonMapper.shared().readTree(row.payload()).path("facilityId").asString("");
    }

    private static String copy(String key, List<Row> rows, Connection connection) throws SQLException {
        String link = "";
        try (PreparedStatement insert =
                connection.prepareStatement("insert into ledger (case_key, case_seq, event_id, received_at, format,"
                        + " digest, payload, link) values (?, ?, ?, ?, ?, ?, ?, ?)")) {
            long seq = 0;
            for (Row row : rows) {
                seq++;
                String[] columns = {
                    key, Long.toString(seq), row.eventId(), row.receivedAt(), row.format(), row.digest(), row.payload()
                };
                link = digest(link + "\n" + String.join("\n", columns));
                for (int i = 0; i < columns.length; i++) {
                    insert.setString(i + 1, columns[i]);
                }
                insert.setLong(2, seq);
                insert.setString(8, link);
                insert.addBatch();
            }
            insert.executeBatch();
        }
        try (PreparedStatement insert =
                connection.prepareStatement("insert into case_head (case_key, case_seq, link) values (?, ?, ?)")) {
            insert.setString(1, key);
            insert.setLong(2, rows.size());
            insert.setString(3, link);
            insert.executeUpdate();
        }
        return link;
    }

    private static void moveSetAside(String former, String key, List<Row> rows, Connection connection)
            throws SQLException {
        try (PreparedStatement update = connection.prepareStatement(
                "update set_aside set case_key = ?, case_seq = ? where case_key = ? and case_seq = ?")) {
            for (int i = 0; i < rows.size(); i++) {
                update.setString(1, key);
                update.setLong(2, i + 1L);
                update.setString(3, former);
                update.setLong(4, rows.get(i).formerSeq());
                update.addBatch();
            }
            update.executeBatch();
        }
    }

    private static void commit(String content, Connection connection) throws SQLException {
        long number = 1;
        String before = "";
        try (PreparedStatement select = connection.prepareStatement(
                        "select number, link from commit_chain order by number desc limit 1");
                ResultSet found = select.executeQuery()) {
            if (found.next()) {
                number = found.getLong(1) + 1;
                before = found.getString(2);
            }
        }
        try (PreparedStatement insert =
                connection.prepareStatement("insert into commit_chain (number, content, link) values (?, ?, ?)")) {
            insert.setLong(1, number);
            insert.setString(2, content);
            insert.setString(3, digest(before + "\n" + number + "\n" + content));
            insert.executeUpdate();
        }
    }

    private static String digest(String text) {
        try {
            return HexFormat.of()
                    .formatHex(MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8)));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every JDK has SHA-256", e);
        }
    }
}
