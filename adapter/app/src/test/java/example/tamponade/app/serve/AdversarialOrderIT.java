package example.tamponade.app.serve;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.database.TestDatabase;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Each event earlier than all before it, so that each changes every total behind it. */
class AdversarialOrderIT {

    private static final OffsetDateTime LAST = OffsetDateTime.parse("2026-03-03T20:00:00Z");

    // Up to 100 that wait together are one step, and what a step changes is one version.
    @Test
    void eventsThatWaitTogetherAreNotAVersionForEachState() throws SQLException {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(database)) {
            putOnRecord(server, 120);

            assertThat(count(database, "resource_version")).isLessThan(2 * count(database, "case_resource"));
        }
    }

    private static void putOnRecord(RunningServer server, int events) {
        String input =
                IntStream.range(0, events).mapToObj(AdversarialOrderIT::event).collect(Collectors.joining("\n"));
        assertThat(server.post("application/x-ndjson", input.getBytes(UTF_8)).statusCode())
                .isEqualTo(200);
        Instant end = Instant.now().plus(Duration.ofMinutes(2));
        while (!server.get("/intake").body().replace(" ", "").contains("\"behindRecord\":0")
                && Instant.now().isBefore(end)) {
            Thread.onSpinWait();
        }
    }

    private static long count(TestDatabase database, String table) throws SQLException {
        try (Connection connection = database.connect();
                Statement statement = connection.createStatement();
                ResultSet count = statement.executeQuery("select count(*) from " + table)) {
            count.next();
            return count.getLong(1);
        }
    }

    private static String event(int place) {
        OffsetDateTime at = LAST.minusMinutes(place);
        return """
                {"eventId":"%s","caseId":"FGL-120","facilityId":"fernglade-hp","occurredAt":"%s","recordedAt":"%s",\
                "recordedBy":{"id":"fg-17","role":"birth-attendant"},"type":"blood-loss",\
                "data":{"method":"suction","reading":"increment","volumeMl":10}}""".formatted(
                        java.util
                                .UUID
                                .nameUUIDFromBytes(("early " + place).getBytes(UTF_8))
                                .toString()
                                .replaceAll("^(.{14}).", "$14"),
                        at.toInstant(),
                        LAST.plusSeconds(place).toInstant());
    }
}
