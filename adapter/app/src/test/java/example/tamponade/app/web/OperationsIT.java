package example.tamponade.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Samples;
import example.tamponade.app.crash.Waiting;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.serve.RunningServer;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;

class OperationsIT {

    private static final Pattern REFUSED = Pattern.compile("/operations/refused/[0-9a-f-]{36}");

    @EachDatabase
    void whatWasRefusedIsShownWithItsReasonsAndCanBeCorrectedThere(TestDatabase database) throws Exception {
        try (RunningServer server = RunningServer.start(database)) {
            server.post("application/x-ndjson", Samples.events("messy"));
            Waiting.until(
                    Duration.ofMinutes(1),
                    "the record",
                    () -> server.get("/ledger").body().contains("\"casesBehind\":0"));
            HttpResponse<String> page = server.get("/operations");
            String open = server.get("/ledger").body().replaceFirst("(?s).*\"openInQuarantine\":(\\d+).*", "$1");

            assertThat(page.headers().firstValue("Content-Security-Policy").orElseThrow())
                    .contains("default-src 'none'", "form-action 'none'");
            assertThat(page.body())
                    .contains("not a medical device", open + " refused inputs wait for a correction", "/data/volumeMl");
            List<String> links = REFUSED.matcher(page.body())
                    .results()
                    .map(MatchResult::group)
                    .toList();
            assertThat(links).hasSize(Integer.parseInt(open));
            for (String link : links) {
                assertThat(server.get(link).body()).contains("What became of it", "refused");
            }

            String negative = links.stream()
                    .filter(it -> server.get(it).body().contains("-150 mL is outside"))
                    .findFirst()
                    .orElseThrow();
            String id = negative.substring(negative.lastIndexOf('/') + 1);
            String piece = server.get(negative)
                    .body()
                    .replaceFirst("(?s).*<textarea[^>]*>(.*)</textarea>.*", "$1")
                    .replace("&quot;", "\"")
                    .replace("&#39;", "'");
            // As the page's script sends it.
            HttpResponse<String> corrected = HttpClient.newHttpClient()
                    .send(
                            server.request("/quarantine/" + id + "/corrections?by=operator")
                                    .header("Content-Type", "application/octet-stream")
                                    .POST(HttpRequest.BodyPublishers.ofString(piece.replace("-150", "150")))
                                    .build(),
                            HttpResponse.BodyHandlers.ofString());
            assertThat(corrected.statusCode()).as(corrected.body()).isEqualTo(200);
            assertThat(server.get(negative).body()).contains("correction-taken").doesNotContain("Send the correction");
            assertThat(server.get("/operations").body()).doesNotContain(negative);
        }
    }

    @EachDatabase
    void whatCameIsTextAndNeverMarkup(TestDatabase database) {
        try (RunningServer server = RunningServer.start(database)) {
            server.post("{\"note\":\"</textarea><script>alert(1)</script>\"}");
            String page = server.get("/operations").body();
            String link =
                    REFUSED.matcher(page).results().findFirst().orElseThrow().group();

            assertThat(server.get(link).body())
                    .contains("&lt;/textarea&gt;&lt;script&gt;")
                    .doesNotContain("<script>alert");
        }
    }
}
