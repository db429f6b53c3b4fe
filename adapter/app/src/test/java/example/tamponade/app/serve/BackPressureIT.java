package example.tamponade.app.serve;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Samples;
import example.tamponade.app.database.TestDatabase;
import java.io.IOException;
import java.net.Socket;
import java.net.http.HttpResponse;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Status codes: RFC 6585 section 4 (429 and Retry-After), RFC 9110 section 15.5.14 (413). */
class BackPressureIT {

    private static final String NDJSON = "application/x-ndjson";

    @Test
    void asksSendersToTryAgainWhenTooMuchWaits() throws Exception {
        ExecutorService senders = Executors.newFixedThreadPool(60);
        List<HttpResponse<String>> answers = new ArrayList<>();
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(
                        database, "--tamponade.intake.waiting=2000", "--tamponade.intake.long-bodies=60")) {
            List<Future<HttpResponse<String>>> sent = new ArrayList<>();
            try (Connection held = database.connect();
                    Statement statement = held.createStatement()) {
                statement.execute("begin immediate");
                for (int i = 0; i < 60; i++) {
                    byte[] large = large(i);
                    sent.add(senders.submit(() -> server.post("application/json", large)));
                }
                waitForA429(sent);
                assertThat(JsonMapper.shared()
                                .readTree(server.get("/intake").body())
                                .path("waiting")
                                .asInt())
                        .isBetween(1000, 2000);
                statement.execute("rollback");
            }
            for (Future<HttpResponse<String>> one : sent) {
                answers.add(one.get());
            }

            List<HttpResponse<String>> later =
                    answers.stream().filter(it -> it.statusCode() == 429).toList();
            assertThat(later).isNotEmpty().allSatisfy(it -> {
                assertThat(it.headers().firstValueAsLong("Retry-After").orElse(0))
                        .isPositive();
                assertThat(it.body()).contains("nothing of this was taken");
            });
            long kept = JsonMapper.shared()
                    .readTree(server.get("/quarantine").body())
                    .size();
            assertThat(answers.stream().filter(it -> it.statusCode() == 422).count())
                    .isEqualTo(kept)
                    .isEqualTo(60 - later.size());
        } finally {
            senders.shutdown();
        }
    }

    private static void waitForA429(List<Future<HttpResponse<String>>> sent) throws Exception {
        while (true) {
            for (Future<HttpResponse<String>> one : sent) {
                if (one.isDone() && one.get().statusCode() == 429) {
                    return;
                }
            }
            Thread.sleep(20);
        }
    }

    // Just below the longest that is kept whole.
    private static byte[] large(int number) {
        byte[] large = new byte[1 << 20];
        Arrays.fill(large, (byte) 'x');
        large[0] = (byte) ('A' + number);
        return large;
    }

    @Test
    void readsOnlySoManyInputsAtTheSameTimeAndTellsHowFarTheyAre() throws IOException, InterruptedException {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(database, "--tamponade.intake.inputs=1");
                Socket slow = new Socket("127.0.0.1", server.port())) {
            String first = new String(Samples.events("settled"), UTF_8).split("\n")[0] + "\n";
            slow.getOutputStream()
                    .write(("POST /events HTTP/1.1\r\nHost: localhost\r\nAuthorization: " + server.login()
                                    + "\r\nContent-Type: " + NDJSON + "\r\nContent-Length: 1000000\r\n\r\n" + first)
                            .getBytes(US_ASCII));
            slow.getOutputStream().flush();
            JsonNode inputs = inputs(server);
            while (inputs.isEmpty()) {
                Thread.sleep(20);
                inputs = inputs(server);
            }
            assertThat(inputs.get(0).path("stored").asLong()).isZero();

            HttpResponse<String> second = server.post(NDJSON, first.getBytes(UTF_8));

            assertThat(second.statusCode()).isEqualTo(429);
            assertThat(second.headers().firstValue("Retry-After")).isPresent();
        }
    }

    private static JsonNode inputs(RunningServer server) {
        return JsonMapper.shared().readTree(server.get("/intake").body()).path("inputs");
    }

    @Test
    void stopsReadingABodyThatIsTooLongAndSaysWhatIsStored() {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(database, "--tamponade.intake.longest=300KB")) {
            byte[] twice = Arrays.copyOf(Samples.events("settled"), 400_000);

            HttpResponse<String> answer = server.post(NDJSON, twice);

            assertThat(answer.statusCode()).isEqualTo(413);
            JsonNode told = JsonMapper.shared().readTree(answer.body());
            assertThat(told.path("brokenOff").asString()).contains("in parts");
            HttpResponse<String> again = server.post(NDJSON, Samples.events("settled"));
            assertThat(JsonMapper.shared()
                            .readTree(again.body())
                            .path("repeated")
                            .asLong())
                    .isGreaterThanOrEqualTo(told.path("stored").asLong());
        }
    }

    @Test
    void aFormatThatNobodyKnowsIsToldWithThoseThereAre() {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(database)) {
            HttpResponse<String> answer = server.post("application/x-scroll", "{}".getBytes(UTF_8));

            assertThat(answer.statusCode()).isEqualTo(415);
            assertThat(answer.body()).contains("application/x-ndjson");
        }
    }

    @Test
    void nothingIsAcknowledgedWhileTheDatabaseCannotBeWritten() throws SQLException {
        String event = new String(Samples.events("settled"), UTF_8).split("\n")[0];
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(database)) {
            try (Connection held = database.connect();
                    Statement statement = held.createStatement()) {
                statement.execute("begin immediate");

                HttpResponse<String> answer = server.post(event);

                assertThat(answer.statusCode()).isEqualTo(503);
                assertThat(answer.body()).contains("nothing of it was acknowledged");
                statement.execute("rollback");
            }
            assertThat(server.post(event).statusCode()).isEqualTo(201);
        }
    }
}
