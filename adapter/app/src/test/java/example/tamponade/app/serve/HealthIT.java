package example.tamponade.app.serve;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Samples;
import example.tamponade.app.database.TestDatabase;
import java.io.IOException;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import org.junit.jupiter.api.Test;

/** Whether the server is well, and what it measures, on a port of their own. */
class HealthIT {

    private static final HttpClient CLIENT = HttpClient.newHttpClient();

    @Test
    void saysHowItIsAndWhatItMeasuresAndNothingOfPatients() throws Exception {
        int port = freePort();
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.POSTGRESQL);
                RunningServer server = RunningServer.start(
                        database,
                        "--management.server.port=" + port,
                        "--tamponade.destinations.record.address=http://127.0.0.1:1/fhir")) {
            server.post("application/x-ndjson", Samples.events("messy"));
            server.get("/cases/fernglade-hp/none");
            while (!server.get("/ledger").body().contains("\"casesBehind\":0")) {
                Thread.onSpinWait();
            }

            assertThat(get(port, "/health/liveness").statusCode()).isEqualTo(200);
            assertThat(get(port, "/health/readiness").body()).contains("\"status\":\"UP\"", "database", "record");
            assertThat(get(port, "/prometheus").body())
                    .containsPattern("tamponade_quarantine_open [1-9]")
                    .containsPattern("tamponade_delivery_due\\{destination=\"record\"\\} [1-9]")
                    .contains("tamponade_record_behind 0.0", "http_server_requests", "jvm_memory_used_bytes")
                    .doesNotContain("fernglade", "FGL");
            assertThat(get(port, "/env").statusCode()).isNotEqualTo(200);
            assertThat(get(server.port(), "/health").statusCode()).isEqualTo(404);
            assertThat(get(server.port(), "/prometheus").statusCode()).isEqualTo(404);

            database.refuseConnections();
            assertThat(get(port, "/health/readiness").statusCode()).isEqualTo(503);
            assertThat(get(port, "/health/liveness").statusCode()).isEqualTo(200);
            database.allowConnections();
            while (get(port, "/health/readiness").statusCode() != 200) {
                Thread.sleep(100);
            }
        }
    }

    private static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0)) {
            return socket.getLocalPort();
        }
    }

    private static HttpResponse<String> get(int port, String path) throws IOException, InterruptedException {
        return CLIENT.send(
                HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + path))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
    }
}
