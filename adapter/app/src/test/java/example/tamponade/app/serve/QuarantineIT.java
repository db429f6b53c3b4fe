package example.tamponade.app.serve;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.CommandRun;
import example.tamponade.app.Samples;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
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
        assertThat(verify.out()).contains("1 events of 1 cases and facilities checked, 0 faults");
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
