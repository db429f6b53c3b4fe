package example.tamponade.app.delivery;

import example.tamponade.app.Samples;
import example.tamponade.app.crash.AdapterProcess;
import example.tamponade.app.crash.Waiting;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import java.io.IOException;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Random;

/** The adapter is killed while it delivers. */
class DeliveryCrashIT {

    private static final Duration LONGEST = Duration.ofMinutes(1);

    // How often it is killed; more often by hand.
    private static final int KILLS = Integer.getInteger("delivery.kills", 1);

    private final HttpClient client = HttpClient.newHttpClient();

    @EachDatabase
    void nothingIsLostDoubledOrOutOfOrderWhenTheAdapterIsKilled(TestDatabase database)
            throws IOException, InterruptedException {
        List<String> lines = Arrays.asList(new String(Samples.events("referred"), StandardCharsets.UTF_8).split("\n"));
        Random random = new Random();
        try (FhirStore store = FhirStore.start()) {
            AdapterProcess adapter = AdapterProcess.ofClassPath(database.settings())
                    .with("TAMPONADE_DESTINATIONS_RECORD_ADDRESS", "http://127.0.0.1:" + store.port() + "/fhir")
                    .with("TAMPONADE_DESTINATIONS_RECORD_BATCH", "5")
                    .with("TAMPONADE_DESTINATIONS_RECORD_PATIENCE", "1s");
            int part = lines.size() / (KILLS + 1);
            for (int kill = 0; kill <= KILLS; kill++) {
                adapter.serve();
                int to = kill == KILLS ? lines.size() : (kill + 1) * part;
                post(adapter, String.join("\n", lines.subList(kill * part, to)));
                if (kill < KILLS) {
                    Thread.sleep(random.nextInt(1500));
                    adapter.kill();
                }
            }
            Waiting.until(
                    LONGEST,
                    "the record is delivered",
                    () -> get(adapter, "/ledger").contains("\"casesBehind\":0")
                            && get(adapter, "/deliveries").contains("\"resources\":0"));
            Arrival.assertArrived(database, store);
            adapter.kill();
        }
    }

    private void post(AdapterProcess adapter, String lines) throws IOException, InterruptedException {
        client.send(
                HttpRequest.newBuilder(adapter.address().resolve("/events"))
                        .header("Authorization", adapter.login())
                        .header("Content-Type", "application/x-ndjson")
                        .POST(HttpRequest.BodyPublishers.ofString(lines))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
    }

    private String get(AdapterProcess adapter, String path) {
        try {
            return client.send(
                            HttpRequest.newBuilder(adapter.address().resolve(path))
                                    .header("Authorization", adapter.login())
                                    .build(),
                            HttpResponse.BodyHandlers.ofString())
                    .body();
        } catch (IOException | InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }
}
