package example.tamponade.app.ledger;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Samples;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.intake.Piece;
import java.io.IOException;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import org.flywaydb.core.Flyway;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A ledger of the time when a case was a number alone is taken over, and stays proven. */
class FacilityInCaseKeyIT {

    private static final String SHARED = "case/MRX-2026-0048";

    @EachDatabase
    void aCaseIsOfTheFacilityThatOpenedIt(TestDatabase where) throws IOException, SQLException {
        List<KeptEnd> kept = former(where);

        try (Database database = Database.open(where.settings())) {
            Ledger ledger = new Ledger(database);
            assertThat(ledger.caseKeys())
                    .containsExactly(
                            "case/marrowby-cross/MRX-2026-0048",
                            "case/otherplace/MRX-2026-0048",
                            "facility/marrowby-cross");
            assertThat(ledger.entries("case/otherplace/MRX-2026-0048", 0, 9)).hasSize(1);
            // What the receiving facility sent is of the case that it took over.
            assertThat(ledger.entries("case/marrowby-cross/MRX-2026-0048", 0, Long.MAX_VALUE))
                    .hasSize(156)
                    .extracting(it -> it.event().facilityId())
                    .contains("quillhaven-dh");
            assertThat(ledger.eventsBehindCheckpoint()).isEqualTo(160);

            assertThat(database.jdbc()
                            .sql("select case_key || ' ' || facility_id from case_facility order by 1")
                            .query(String.class)
                            .list())
                    .containsExactlyInAnyOrder(
                            "case/marrowby-cross/MRX-2026-0048 marrowby-cross",
                            "case/marrowby-cross/MRX-2026-0048 quillhaven-dh",
                            "case/otherplace/MRX-2026-0048 otherplace",
                            "facility/marrowby-cross marrowby-cross");
            ChainCheck check = new ChainCheck(database);
            assertThat(check.checkCommits(List.of())).isEmpty();
            assertThat(check.caseKeys()).hasSize(4);
            for (String key : check.caseKeys()) {
                assertThat(check.check(
                                        key,
                                        kept.stream()
                                                .filter(it -> it.caseKey().equals(key))
                                                .toList())
                                .faults())
                        .isEmpty();
            }
        }
    }

    // Two mothers under one number, and the case of one of them continued at another facility.
    private static List<KeptEnd> former(TestDatabase where) throws SQLException {
        String kind = where.toString().toLowerCase(java.util.Locale.ROOT);
        try (Connection connection = where.connect()) {
            String url = connection.getMetaData().getURL();
            Flyway.configure()
                    .dataSource(url, where.settings().user(), where.settings().password())
                    .locations("classpath:db/migration/common", "classpath:db/migration/" + kind)
                    .target("2")
                    .load()
                    .migrate();
            List<String> events = new ArrayList<>(new String(Samples.events("referred"), UTF_8)
                    .replace("\"caseFacility\":\"marrowby-cross\",", "")
                    .lines()
                    .toList());
            String opening = events.stream()
                    .filter(it -> it.contains("\"case-opened\""))
                    .findFirst()
                    .orElseThrow();
            events.add(opening.replaceFirst("\"eventId\":\"[^\"]*\"", "\"eventId\":\"" + UUID.randomUUID() + "\"")
                    .replace("\"marrowby-cross\"", "\"otherplace\""));
            return insert(events, connection);
        }
    }

    private static List<KeptEnd> insert(List<String> events, Connection connection) throws SQLException {
        Map<String, KeptEnd> ends = new TreeMap<>();
        try (PreparedStatement insert = connection.prepareStatement("insert into ledger (case_key, case_seq, event_id,"
                + " received_at, format, digest, payload, link) values (?, ?, ?, ?, ?, ?, ?, ?)")) {
            for (String payload : events) {
                JsonNode event = JsonMapper.shared().readTree(payload);
                String key = event.has("caseId")
                        ? SHARED
                        : "facility/" + event.path("facilityId").stringValue();
                KeptEnd end = ends.getOrDefault(key, new KeptEnd(key, 0, ""));
                LedgerRow row = new LedgerRow(
                        key,
                        end.caseSeq() + 1,
                        event.path("eventId").stringValue(),
                        "2026-05-01T00:00:00Z",
                        "event",
                        Piece.digest(payload),
                        payload);
                String link = row.link(end.link());
                ends.put(key, new KeptEnd(key, row.caseSeq(), link));
                insert.setString(1, key);
                insert.setLong(2, row.caseSeq());
                insert.setString(3, row.eventId());
                insert.setString(4, row.receivedAt());
                insert.setString(5, row.format());
                insert.setString(6, row.digest());
                insert.setString(7, payload);
                insert.setString(8, link);
                insert.addBatch();
            }
            insert.executeBatch();
        }
        StringBuilder content = new StringBuilder();
        for (KeptEnd end : ends.values()) {
            try (PreparedStatement insert = connection.prepareStatement("insert into case_head values (?, ?, ?)")) {
                insert.setString(1, end.caseKey());
                insert.setLong(2, end.caseSeq());
                insert.setString(3, end.link());
                insert.executeUpdate();
            }
            content.append(content.isEmpty() ? "" : "\n").append(end.line());
        }
        try (PreparedStatement insert = connection.prepareStatement("insert into commit_chain values (1, ?, ?)")) {
            insert.setString(1, content.toString());
            insert.setString(2, Piece.digest("\n1\n" + content));
            insert.executeUpdate();
        }
        return List.copyOf(ends.values());
    }
}
