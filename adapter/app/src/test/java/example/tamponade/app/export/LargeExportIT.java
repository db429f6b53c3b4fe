package example.tamponade.app.export;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Samples;
import example.tamponade.app.crash.AdapterProcess;
import example.tamponade.app.crash.Waiting;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.serve.RunningServer;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** An export of a hundred thousand resources from a server whose heap is the least that it starts with. */
class LargeExportIT {

    private static final int RESOURCES = 100_000;
    private static final HttpClient CLIENT = HttpClient.newHttpClient();

    @Test
    void aLargeExportNeedsNoMoreMemoryThanASmallOne() throws Exception {
        try (TestDatabase where = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            try (RunningServer server = RunningServer.start(where)) {
                server.post("application/x-ndjson", Samples.events("referred"));
                Waiting.until(
                        Duration.ofMinutes(1),
                        "the record",
                        () -> server.get("/ledger").body().contains("\"casesBehind\":0"));
            }
            long there = multiply(where);
            AdapterProcess adapter =
                    AdapterProcess.ofClassPath(where.settings()).withFlag("-Xmx256m");
            adapter.serve();
            try {
                HttpResponse<String> asked = get(adapter, adapter.address().resolve("/fhir/$export"));
                URI at = URI.create(
                        asked.headers().firstValue("Content-Location").orElseThrow());
                Waiting.until(
                        Duration.ofMinutes(3),
                        "the export",
                        () -> get(adapter, at).statusCode() != 202);
                JsonNode manifest =
                        JsonMapper.shared().readTree(get(adapter, at).body());
                long exported = 0;
                for (JsonNode file : manifest.required("output")) {
                    exported += lines(adapter, URI.create(file.required("url").asString()));
                }
                assertThat(exported).isEqualTo(there).isGreaterThan(RESOURCES);
            } finally {
                adapter.kill();
            }
        }
    }

    // The same case again and again under other names, as many another case would be.
    private static long multiply(TestDatabase where) throws IOException {
        try (Database database = Database.open(where.settings())) {
            long once = count(database);
            int copies = (int) (RESOURCES / once) + 1;
            database.transactions().executeWithoutResult(status -> {
                for (String table : new String[] {"resource_version", "current_version", "case_resource"}) {
                    String columns = switch (table) {
                        case "resource_version" ->
                            "type, id || '-' || n, version, replace(content, '\"id\":\"' || id || '\"', '\"id\":\"' || id || '-' || n || '\"'), stored_at";
                        case "current_version" ->
                            "type, id || '-' || n, version, stored_at, case_key || '-' || n, low, high, words";
                        default -> "case_key || '-' || n, type, id || '-' || n";
                    };
                    database.jdbc()
                            .sql("with recursive copy (n) as (select 1 union all select n + 1 from copy where n < "
                                    + copies + ") insert into " + table + " select " + columns + " from "
                                    + table + ", copy")
                            .update();
                }
            });
            return count(database);
        }
    }

    private static long count(Database database) {
        return database.jdbc()
                .sql("select count(*) from current_version")
                .query(Long.class)
                .single();
    }

    private static HttpResponse<String> get(AdapterProcess adapter, URI at) {
        try {
            return CLIENT.send(request(adapter, at), HttpResponse.BodyHandlers.ofString());
        } catch (IOException | InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    private static long lines(AdapterProcess adapter, URI at) throws IOException, InterruptedException {
        try (Stream<String> lines = CLIENT.send(request(adapter, at), HttpResponse.BodyHandlers.ofLines())
                .body()) {
            return lines.count();
        }
    }

    private static HttpRequest request(AdapterProcess adapter, URI at) {
        return HttpRequest.newBuilder(at)
                .header("Authorization", adapter.login())
                .header("Accept", "application/fhir+json")
                .header("Prefer", "respond-async")
                .build();
    }
}
