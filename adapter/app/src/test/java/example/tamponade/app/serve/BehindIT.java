package example.tamponade.app.serve;

import static java.nio.charset.StandardCharsets.UTF_8;
import static java.time.format.DateTimeFormatter.ISO_OFFSET_DATE_TIME;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.database.Database;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Original;
import example.tamponade.app.ledger.Arrival;
import example.tamponade.app.ledger.Ledger;
import java.io.IOException;
import java.sql.Connection;
import java.sql.Statement;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A server that begins with much that is acknowledged and not on record. */
class BehindIT {

    private static final OffsetDateTime BEGIN = OffsetDateTime.parse("2026-03-03T10:00:00+05:45");

    @EachDatabase
    void anEventOfAnotherCaseDoesNotWaitForLongOnes(TestDatabase where) throws IOException {
        int cases = 2 * Runtime.getRuntime().availableProcessors() + 1;
        fill(where, cases, 700);
        try (RunningServer server = RunningServer.start(where)) {
            assertThat(server.post(event("OTHER", 0)).statusCode()).isEqualTo(201);
            Ledger ledger = server.part(Ledger.class);
            while (ledger.behindCheckpoint().contains("case/fernglade-hp/OTHER")) {
                Thread.onSpinWait();
            }
            assertThat(ledger.behindCheckpoint()).hasSizeGreaterThan(1);
        }
    }

    @EachDatabase
    void sendersAreAskedToTryAgainUntilTheRecordHasCaughtUp(TestDatabase where) throws IOException {
        fill(where, 3, 400);
        try (RunningServer server = RunningServer.start(where, "--tamponade.intake.behind=100")) {
            while (server.get("/intake").body().contains("\"behindRecord\":0")) {
                Thread.onSpinWait();
            }
            JsonNode intake = JsonMapper.shared().readTree(server.get("/intake").body());
            assertThat(intake.path("behindRecord").asInt()).isPositive();
            assertThat(intake.has("oldestBehindRecordSeconds")).isTrue();
            assertThat(server.post(event("OTHER", 0))).satisfies(it -> {
                assertThat(it.statusCode()).isEqualTo(429);
                assertThat(it.body()).contains("not on record yet", "nothing of this was taken");
            });
            int status = 429;
            while (status == 429) {
                status = server.post(event("OTHER", 0)).statusCode();
            }
            assertThat(status).isEqualTo(201);
            assertThat(server.part(Ledger.class).size()).isEqualTo(3 * 400 + 1);
        }
    }

    @Test
    void aCaseThatCannotBePutOnRecordIsSeenToWait() throws Exception {
        try (TestDatabase where = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(where);
                Connection beside = where.connect();
                Statement statement = beside.createStatement()) {
            statement.execute("create trigger broken before insert on resource_version"
                    + " begin select raise(abort, 'broken for a test'); end");
            assertThat(server.post(event("STUCK-1", 0)).statusCode()).isEqualTo(201);

            long oldest = 0;
            for (int look = 0; look < 100 && oldest < 2; look++) {
                Thread.sleep(100);
                oldest = JsonMapper.shared()
                        .readTree(server.get("/intake").body())
                        .path("oldestBehindRecordSeconds")
                        .asLong();
            }
            assertThat(oldest).isGreaterThanOrEqualTo(2);
        }
    }

    private static void fill(TestDatabase where, int cases, int events) throws IOException {
        try (Database database = Database.open(where.settings())) {
            Ledger ledger = new Ledger(database);
            for (int number = 0; number < cases; number++) {
                List<Arrival> arrivals = new ArrayList<>();
                for (int i = 0; i < events; i++) {
                    String text = event("LONG-" + number, i);
                    arrivals.add(new Arrival(
                            new Intake.Taken(EventReader.stored(text), text, "0".repeat(64)),
                            InputFormat.EVENT,
                            Original.of(text.getBytes(UTF_8)),
                            Instant.now()));
                }
                ledger.append(arrivals);
            }
        }
    }

    private static String event(String caseId, int number) {
        OffsetDateTime at = BEGIN.plusSeconds(number);
        return """
                {"eventId":"%s","caseId":"%s","facilityId":"fernglade-hp","occurredAt":"%s","recordedAt":"%s",\
                "recordedBy":{"id":"fg-17","role":"birth-attendant"},"type":"note","data":{"text":"warm and dry"}}""".formatted(
                        UUID.randomUUID(),
                        caseId,
                        ISO_OFFSET_DATE_TIME.format(at),
                        ISO_OFFSET_DATE_TIME.format(at.plusMinutes(1)));
    }
}
