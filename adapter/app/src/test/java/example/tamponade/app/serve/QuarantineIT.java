package example.tamponade.app.serve;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.CommandRun;
import example.tamponade.app.Samples;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Original;
import example.tamponade.app.ledger.Arrival;
import example.tamponade.app.ledger.Ledger;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class QuarantineIT {

    private static final String JSON = "application/json";

    @TempDir
    private Path folder;

    @EachDatabase
    void keepsEveryRefusedLineWholeAndListsIt(TestDatabase database) {
        List<String> lines = List.of(new String(Samples.events("messy"), UTF_8).split("\n"));
        JsonNode refused = Samples.expected("messy").path("events").path("refused");
        try (RunningServer server = RunningServer.start(database)) {
            server.post("application/x-ndjson", Samples.events("messy"));

            JsonNode listed = json(server.get("/quarantine?state=open"));
            assertThat(listed.size()).isEqualTo(refused.size());
            for (int i = 0; i < refused.size(); i++) {
                int line = refused.get(i).path("line").asInt();
                JsonNode entry = named(listed, "line " + line);
                assertThat(entry.path("reasons").get(0).path("code").asString())
                        .isEqualTo(refused.get(i).path("reason").asString());
                assertThat(json(server.get("/quarantine/" + entry.path("id").asString()))
                                .path("text")
                                .asString())
                        .isEqualTo(lines.get(line - 1));
            }
            assertThat(json(server.get("/quarantine?reason=wrong-unit")).size()).isEqualTo(2);
            assertThat(json(server.get("/quarantine?format=register")).size()).isZero();
            assertThat(json(server.get("/quarantine?mentions=blood-lost")).size())
                    .isEqualTo(1);
            assertThat(page(server)).isEqualTo(refused.size());
        }
    }

    @EachDatabase
    void aCaseOfWhichNothingCanBeToldSaysWhereItIs(TestDatabase database) {
        // Intake took such a time once; FHIR has no place for it.
        String untold = """
                {"eventId":"6f0d3c1e-5a44-4d0e-9a55-0f6f6ce1a001","caseId":"FGL-9","facilityId":"fernglade-hp",\
                "occurredAt":"2026-03-03T23:00:00+18:00","recordedAt":"2026-03-03T23:01:00+18:00",\
                "recordedBy":{"id":"fg-17","role":"birth-attendant"},"type":"note","data":{"text":"warm"}}""";
        try (RunningServer server = RunningServer.start(database)) {
            server.part(Ledger.class)
                    .append(List.of(new Arrival(
                            new Intake.Taken(EventReader.stored(untold), untold, "0".repeat(64)),
                            InputFormat.EVENT,
                            Original.of(untold.getBytes(UTF_8)),
                            Instant.now())));

            HttpResponse<String> read = server.get("/cases/fernglade-hp/FGL-9");
            assertThat(read.statusCode()).isEqualTo(404);
            assertThat(read.body()).contains("1 events", "/quarantine");
            assertThat(json(server.get("/ledger")).path("eventsSetAside").asInt())
                    .isEqualTo(1);
        }
    }

    private static int page(RunningServer server) {
        List<String> seen = new ArrayList<>();
        String after = "";
        JsonNode page = json(server.get("/quarantine?limit=5"));
        while (!page.isEmpty()) {
            page.forEach(it -> seen.add(it.path("id").asString()));
            after = seen.get(seen.size() - 1);
            page = json(server.get("/quarantine?limit=5&after=" + after));
        }
        assertThat(seen).doesNotHaveDuplicates();
        return seen.size();
    }

    // Each group is a piece of its own; the message they came in is kept once.
    @EachDatabase
    void keepsEachRefusedGroupOfAMessageWithItsOwnReasons(TestDatabase database) throws SQLException {
        String group = """
                OBR|%1$d||W%1$d^WARDBOOK|blood-loss^^99TAM|||20260211225800+0545|||||||||||||||20260211230000+0545|||F
                OBX|%1$d|CWE|blood-loss.method^^99TAM||%2$s^^99TAM||||||F|||||fg-mw-02^^^^^^midwife
                """;
        String message = """
                MSH|^~\\&|WARDBOOK|fernglade-hp|TAMPONADE|OMBREL|20260211230100+0545||ORU^R01^ORU_R01|T1|P|2.5.1
                PV1|1|I|||||||||||||||||FGL-2026-0117
                """ + group.formatted(1, "guesswork") + group.formatted(2, "divination");
        try (RunningServer server = RunningServer.start(database)) {
            server.post("/messages", "application/hl7-v2+er7", message.getBytes(UTF_8));
            server.post("/messages", "application/hl7-v2+er7", message.getBytes(UTF_8));

            JsonNode listed = json(server.get("/quarantine"));
            assertThat(listed.size()).isEqualTo(2);
            assertThat(named(listed, "message T1, OBR 1").path("reasons").toString())
                    .contains("guesswork")
                    .doesNotContain("divination");
            assertThat(named(listed, "message T1, OBR 2").path("reasons").toString())
                    .contains("divination")
                    .doesNotContain("guesswork");
            listed.forEach(it -> assertThat(
                            json(server.get("/quarantine/" + it.path("id").asString()))
                                    .path("text")
                                    .asString())
                    .isEqualTo(message));
        }
        try (Connection connection = database.connect();
                Statement statement = connection.createStatement();
                ResultSet rows = statement.executeQuery("select count(*) from refused_original")) {
            assertThat(rows.next()).isTrue();
            assertThat(rows.getInt(1)).isEqualTo(1);
        }
    }

    @EachDatabase
    void keepsWhatIsTooLongForAnEventWhole(TestDatabase database) {
        String tooLong = "{\"eventId\":\"" + "x".repeat(3 << 20) + "\"}";
        try (RunningServer server = RunningServer.start(database)) {
            HttpResponse<String> refusal = server.post(tooLong);

            assertThat(refusal.statusCode()).isEqualTo(422);
            JsonNode kept =
                    json(server.get(refusal.headers().firstValue("Location").orElseThrow()));
            assertThat(kept.path("text").asString()).isEqualTo(tooLong);
        }
    }

    // Who has not been told the id of an entry must not be able to work it out from what was sent.
    @EachDatabase
    void theIdOfAnEntryCannotBeWorkedOut(TestDatabase database) {
        List<String> ids = new ArrayList<>();
        for (TestDatabase.Kind kind : TestDatabase.Kind.values()) {
            try (TestDatabase another = TestDatabase.of(kind);
                    RunningServer server = RunningServer.start(another)) {
                ids.add(server.post("{").headers().firstValue("Location").orElseThrow());
            }
        }
        try (RunningServer server = RunningServer.start(database)) {
            ids.add(server.post("{").headers().firstValue("Location").orElseThrow());
        }
        assertThat(ids).doesNotHaveDuplicates();
    }

    @EachDatabase
    void aCorrectionIsTakenOnceAndTheHistoryKeepsEveryAttempt(TestDatabase database) {
        String right = new String(Samples.events("settled"), UTF_8).split("\n")[8];
        String wrong = right.replace("\"recordedBy\"", "\"recordedby\"");
        String stillWrong = right.replaceFirst("\"type\":\"[^\"]*\"", "\"type\":\"blood-lost\"");
        try (RunningServer server = RunningServer.start(database)) {
            HttpResponse<String> refusal = server.post(wrong);
            String entry = refusal.headers().firstValue("Location").orElseThrow();
            assertThat(server.post(wrong).headers().firstValue("Location")).hasValue(entry);
            String corrections = entry + "/corrections?by=fg-mw-02";

            assertThat(server.post(corrections, JSON, stillWrong.getBytes(UTF_8))
                            .statusCode())
                    .isEqualTo(422);
            assertThat(json(server.get("/quarantine")).size()).isEqualTo(1);
            assertThat(server.post(corrections, JSON, right.getBytes(UTF_8)).statusCode())
                    .isEqualTo(200);
            assertThat(server.post(corrections, JSON, right.getBytes(UTF_8)).statusCode())
                    .isEqualTo(409);

            JsonNode kept = json(server.get(entry));
            assertThat(kept.path("state").asString()).isEqualTo("taken");
            assertThat(kept.path("text").asString()).isEqualTo(wrong);
            assertThat(kept.path("history")
                            .valueStream()
                            .map(it -> it.path("what").asString()))
                    .containsExactly("refused", "correction-refused", "correction-taken");
            assertThat(kept.path("history").get(1).path("text").asString()).isEqualTo(stillWrong);
            assertThat(kept.path("history").get(2).path("who").asString()).isEqualTo("fg-mw-02");
            assertThat(server.post(right).statusCode())
                    .as("the corrected event is stored")
                    .isEqualTo(200);
        }
    }

    @EachDatabase
    void anEntryIsSetAsideForAReason(TestDatabase database) {
        try (RunningServer server = RunningServer.start(database)) {
            String entry = server.post("{").headers().firstValue("Location").orElseThrow();

            assertThat(server.post(entry + "/setting-aside?by=fg-nu-01&why=a+test+line", JSON, new byte[0])
                            .statusCode())
                    .isEqualTo(200);

            assertThat(server.get(entry).body()).contains("\"set-aside\"", "a test line");
            assertThat(json(server.get("/quarantine?state=open")).size()).isZero();
            assertThat(server.post(entry + "/corrections?by=x", JSON, "{}".getBytes(UTF_8))
                            .statusCode())
                    .isEqualTo(409);
            assertThat(server.get("/quarantine?state=lost").statusCode()).isEqualTo(400);
            assertThat(server.get("/quarantine?state=lost").body()).contains("open, taken, set-aside");
        }
    }

    @EachDatabase
    void theCommandLineDoesTheSame(TestDatabase database) throws IOException {
        String right = new String(Samples.events("settled"), UTF_8).split("\n")[8];
        String wrong = right.replace("\"midwife\"", "\"wizard\"").replace("\"form\"", "\"parchment\"");
        Path file = Files.writeString(folder.resolve("wrong.jsonl"), wrong + "\n");
        Path mended = Files.writeString(folder.resolve("right.json"), right);

        CommandRun take = run(database, "take", "--in", file.toString());
        assertThat(take.code()).as(take.err()).isEqualTo(2);
        assertThat(take.err()).contains("line 1 /recordedBy/role", "line 1 /source", "not in the list", "1 refused");

        CommandRun list = run(database, "quarantine", "list", "--reason", "not-in-list");
        assertThat(list.code()).as(list.err()).isZero();
        String id = JsonMapper.shared().readTree(list.out()).path("id").asString();
        assertThat(run(database, "quarantine", "show", id).out()).contains("wizard");
        CommandRun correct = run(database, "quarantine", "correct", id, "--with", mended.toString(), "--by", "clerk");
        assertThat(correct.code()).as(correct.err()).isZero();
        assertThat(run(database, "quarantine", "list", "--state", "open").out()).isEmpty();
        assertThat(run(database, "take", "--in", mended.toString()).err()).contains("0 stored, 1 there before");

        CommandRun verify = run(database, "verify");
        assertThat(verify.out())
                .contains("1 events of 1 cases and facilities checked, and 1 entries of quarantine, 0 faults");
        assertThat(verify.code()).isZero();
    }

    private static CommandRun run(TestDatabase database, String... command) {
        List<String> arguments = new ArrayList<>(List.of(command));
        arguments.addAll(database.commandOptions());
        return CommandRun.of(arguments.toArray(String[]::new));
    }

    private static JsonNode named(JsonNode entries, String place) {
        return entries.valueStream()
                .filter(it -> Objects.equals(it.path("place").asString(), place))
                .findFirst()
                .orElseThrow(() -> new AssertionError(place + " is not in quarantine"));
    }

    private static JsonNode json(HttpResponse<String> answer) {
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        return JsonMapper.shared().readTree(answer.body());
    }
}
