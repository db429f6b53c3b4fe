package example.tamponade.app.serve;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Samples;
import example.tamponade.app.database.TestDatabase;
import java.io.IOException;
import java.net.Socket;
import java.net.http.HttpResponse;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Senders who do not get on keep nobody from being served. */
class SlowSendersIT {

    private static TestDatabase database;
    private static RunningServer server;

    @BeforeAll
    static void start() {
        database = TestDatabase.of(TestDatabase.Kind.SQLITE);
        server = RunningServer.start(
                database,
                "--tamponade.intake.patience=2s",
                "--server.tomcat.connection-timeout=2s",
                "--tamponade.intake.bodies=4",
                "--tamponade.intake.long-bodies=2");
    }

    @AfterAll
    static void stop() {
        server.close();
        database.close();
    }

    @ParameterizedTest
    @ValueSource(strings = {"application/json", "application/x-ndjson", "text/csv", "application/fhir+json"})
    void oneThatDoesNotGetOnIsToldSo(String type) throws IOException {
        try (Socket slow = begin(type, 1000, "{")) {
            assertThat(answer(slow)).startsWith("HTTP/1.1 408").contains("1024 bytes a second");
        }
    }

    @Test
    void whatALongInputAcknowledgedBeforeStands() throws IOException {
        String event = event(0);
        try (Socket slow = begin("application/x-ndjson", 100_000, event + "\n")) {
            assertThat(answer(slow)).startsWith("HTTP/1.1 408").contains("brokenOff");
        }
        assertThat(server.post(event).statusCode()).isIn(200, 201);
    }

    @Test
    void whoAsksIsAnsweredThoughAllPlacesAreTakenAndTheyAreFreeAgain() throws IOException {
        List<Socket> slow = new ArrayList<>();
        // An event may take a place before a slow sender does, who is then refused: another one takes the place.
        do {
            slow.add(begin("application/json", 1000, "{"));
        } while (server.post(event(1)).statusCode() != 429);
        assertThat(server.get("/ledger").statusCode()).isEqualTo(200);

        await(event(2), 201);
        for (Socket socket : slow) {
            socket.close();
        }
    }

    @Test
    void longInputsBeyondTheirPlacesAreReadToTheEndAndAskedToComeAgain() throws IOException {
        List<Socket> slow = new ArrayList<>();
        byte[] body = " ".repeat(3 << 20).getBytes(UTF_8);
        HttpResponse<String> refused;
        // Slow senders may be sent away before this one has sent all: others take their places.
        do {
            slow.add(begin("text/csv", 100_000, "a"));
            slow.add(begin("text/csv", 100_000, "b"));
            refused = server.post("text/csv", body);
        } while (refused.statusCode() != 429);
        assertThat(refused.headers().firstValue("X-Content-Type-Options")).contains("nosniff");
        for (Socket socket : slow) {
            assertThat(answer(socket)).containsPattern("^HTTP/1.1 (408|429)");
            socket.close();
        }
        assertThat(server.post("text/csv", " ".getBytes(UTF_8)).statusCode()).isEqualTo(422);
    }

    private static String event(int place) {
        return new String(Samples.events("settled"), UTF_8)
                .lines()
                .skip(place)
                .findFirst()
                .orElseThrow();
    }

    // Places are left while this looks on.
    private static void await(String event, int status) {
        Instant end = Instant.now().plusSeconds(60);
        int last = server.post(event).statusCode();
        while (last != status && Instant.now().isBefore(end)) {
            last = server.post(event).statusCode();
        }
        assertThat(last).isEqualTo(status);
    }

    private static Socket begin(String type, int length, String beginning) throws IOException {
        Socket socket = new Socket("127.0.0.1", server.port());
        socket.setSoTimeout(60_000);
        socket.getOutputStream()
                .write(("POST /events HTTP/1.1\r\nHost: localhost\r\nAuthorization: " + server.login()
                                + "\r\nContent-Type: " + type + "\r\nContent-Length: " + length + "\r\n\r\n"
                                + beginning)
                        .getBytes(UTF_8));
        return socket;
    }

    private static String answer(Socket socket) throws IOException {
        return new String(socket.getInputStream().readAllBytes(), UTF_8);
    }
}
