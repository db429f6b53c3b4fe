package example.tamponade.app.serve;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.database.TestDatabase;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.Socket;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Requests that no program of ours sends. Host: RFC 9112 section 3.2, RFC 9110 section 15.5.20 (421); Origin: RFC 6454
 * section 7; content types that a page may send without asking: WHATWG Fetch, "CORS-safelisted request-header".
 */
class StrangeRequestsIT {

    private static TestDatabase database;
    private static RunningServer server;

    @BeforeAll
    static void start() {
        database = TestDatabase.of(TestDatabase.Kind.SQLITE);
        server = RunningServer.start(database, "--tamponade.hosts=record.fernglade.example");
    }

    @AfterAll
    static void stop() {
        server.close();
        database.close();
    }

    @ParameterizedTest
    @CsvSource({
        "127.0.0.1, 200",
        "localhost, 200",
        "[::1], 200",
        "LOCALHOST:8080, 200",
        "record.fernglade.example, 200",
        "evil.example, 421",
        "127.0.0.1.evil.example, 421",
        "localhost.evil.example:80, 421"
    })
    void servesItsOwnHostsAlone(String host, int status) throws IOException {
        assertThat(sent("GET / HTTP/1.1", "Host: " + host)).startsWith("HTTP/1.1 " + status);
    }

    @ParameterizedTest
    @ValueSource(strings = {"Origin: https://evil.example", "Origin: null", "Sec-Fetch-Site: cross-site"})
    void servesNoPageOfAnotherOrigin(String header) throws IOException {
        assertThat(sent("GET /cases HTTP/1.1", "Host: localhost", header)).startsWith("HTTP/1.1 403");
    }

    @Test
    void answersThoughMuchWasSentThatIsNotWanted() {
        byte[] much = " ".repeat(5 << 20).getBytes(UTF_8);

        assertThat(server.post("text/plain", much).statusCode()).isEqualTo(415);
        assertThat(server.post("/nowhere", "application/json", much).statusCode())
                .isEqualTo(404);
    }

    @Test
    void servesItsOwnPages() throws IOException {
        assertThat(sent("GET /cases HTTP/1.1", "Host: localhost", "Origin: http://localhost"))
                .startsWith("HTTP/1.1 200");
    }

    static Stream<String> posts() {
        String any = "00000000-0000-0000-0000-000000000000";
        return Stream.of(
                "/events",
                "/messages",
                "/quarantine/" + any + "/corrections?by=x",
                "/quarantine/" + any + "/setting-aside?by=x&why=y");
    }

    @ParameterizedTest
    @org.junit.jupiter.params.provider.MethodSource("posts")
    void takesNothingThatAFormCanSend(String path) throws IOException {
        for (String type : new String[] {
            "Content-Type: text/plain",
            "Content-Type: Text/Plain;charset=utf-8",
            "Content-Type: application/x-www-form-urlencoded",
            "Content-Type: multipart/form-data; boundary=x",
            "X-None: x"
        }) {
            assertThat(sent("POST " + path + " HTTP/1.1", "Host: localhost", type, "Content-Length: 0"))
                    .as(type)
                    .startsWith("HTTP/1.1 415");
        }
    }

    @Test
    void everyAnswerKeepsBrowsersFromGuessingAndKeeping() throws IOException {
        for (String request : new String[] {"GET / HTTP/1.1", "GET /nowhere HTTP/1.1", "GET /cases/none HTTP/1.1"}) {
            assertThat(sent(request, "Host: localhost").toLowerCase(Locale.ROOT))
                    .contains("x-content-type-options: nosniff", "cache-control: no-store", "default-src 'none'");
        }
    }

    @Test
    void saysNothingOfItsInsides() throws IOException {
        assertThat(sent("GET /error HTTP/1.1", "Host: localhost")).startsWith("HTTP/1.1 404");
        for (String event : new String[] {
            "{\"eventId\":\"6f0d3c1e-5a44-4d0e-9a55-0f6f6ce1a001\",\"caseId\":\"C-1\",\"facilityId\":\"f\","
                    + "\"occurredAt\":\"2026-02-30T10:00:00Z\",\"recordedAt\":\"2026-02-28T10:00:00Z\","
                    + "\"recordedBy\":{\"id\":\"m\",\"role\":\"midwife\"},\"type\":\"note\",\"data\":{\"text\":\"x\"}}",
            "{\"eventId\":",
            "{\"pulse\":1e2147483648}",
            "[1]"
        }) {
            assertThat(server.post(event).body())
                    .as(event)
                    .contains("issue")
                    .doesNotContainPattern("(java|tools|org|com)\\.[a-z]+\\.[A-Za-z]");
        }
    }

    // The sender of a body that is too long to be kept gets its answer, not a broken connection.
    @Test
    void answersABodyOfAHundredMegabytes() {
        byte[] body = ("\"" + "x".repeat(100 << 20) + "\"").getBytes(UTF_8);

        assertThat(server.post("application/json", body)).satisfies(it -> {
            assertThat(it.statusCode()).isEqualTo(413);
            assertThat(it.body()).contains("16777216 bytes", "send it in parts");
        });
        assertThat(server.get("/ledger").statusCode()).isEqualTo(200);
    }

    private static String sent(String... lines) throws IOException {
        try (Socket socket = new Socket("127.0.0.1", server.port())) {
            OutputStream out = socket.getOutputStream();
            out.write((String.join("\r\n", lines) + "\r\nAuthorization: " + server.login()
                            + "\r\nConnection: close\r\n\r\n")
                    .getBytes(UTF_8));
            out.flush();
            InputStream in = socket.getInputStream();
            return new String(in.readAllBytes(), UTF_8);
        }
    }
}
