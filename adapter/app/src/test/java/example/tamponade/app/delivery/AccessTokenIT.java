package example.tamponade.app.delivery;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.nimbusds.jose.jwk.JWKSet;
import example.tamponade.app.CommandRun;
import example.tamponade.app.Samples;
import example.tamponade.app.crash.Waiting;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.keys.KeyFile;
import example.tamponade.app.serve.RunningServer;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.text.ParseException;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Destinations that let in who has a token alone. */
class AccessTokenIT {

    private static final Duration LONGEST = Duration.ofMinutes(1);
    private static final List<String> LINES =
            Arrays.asList(new String(Samples.events("referred"), StandardCharsets.UTF_8).split("\n"));

    @TempDir
    private Path folder;

    // A token that ends in mid-batch, and keys that are changed while deliveries go on.
    @Test
    void aDestinationIsSentToWithATokenThroughEndsAndChangesOfKeys() throws IOException {
        Path keys = folder.resolve("keys.json");
        String first = added(keys);
        AtomicReference<RunningServer> running = new AtomicReference<>();
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                TokenServer tokens = TokenServer.start(
                        () -> running.get().get("/.well-known/jwks.json").body());
                FhirStore store = FhirStore.start();
                RunningServer server = RunningServer.start(database, settings(store, tokens, keys))) {
            running.set(server);
            store.demand(tokens::isValid);
            send(server, 0, 50);
            assertThat(tokens.asked()).isEqualTo(1);

            tokens.endTokens();
            send(server, 50, 80);
            assertThat(tokens.asked()).isEqualTo(2);
            assertThat(tokens.signers()).containsExactly(first);

            String second = added(keys);
            send(server, 80, 110);
            CommandRun.of("keys", "use", keys.toString());
            tokens.endTokens();
            send(server, 110, LINES.size());
            assertThat(tokens.signers()).containsExactlyInAnyOrder(first, second);

            Arrival.assertArrived(database, store);
            assertThat(server.get("/deliveries").body()).contains("\"problem\":\"\"");
        }
    }

    @Test
    void keysArePublishedWithoutTheirPrivateParts() throws IOException, ParseException {
        Path keys = folder.resolve("keys.json");
        String first = added(keys);
        String second = added(keys);
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                FhirStore store = FhirStore.start();
                TokenServer tokens = TokenServer.start(() -> "");
                RunningServer server = RunningServer.start(database, settings(store, tokens, keys))) {
            JWKSet published = JWKSet.parse(server.get("/.well-known/jwks.json").body());

            assertThat(published.getKeys()).extracting(it -> it.getKeyID()).containsExactly(first, second);
            assertThat(published.getKeys()).noneMatch(it -> it.isPrivate());
            assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(keys)))
                    .isEqualTo("rw-------");
        }
    }

    @Test
    void whoIsNotLetInIsToldWhyAndLosesNothing() throws IOException {
        Path keys = folder.resolve("keys.json");
        added(keys);
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                FhirStore store = FhirStore.start();
                TokenServer tokens = TokenServer.start(() -> "{\"keys\":[]}");
                RunningServer server = RunningServer.start(database, settings(store, tokens, keys))) {
            store.demand(tokens::isValid);
            server.post("application/x-ndjson", Samples.events("referred"));
            Waiting.until(
                    LONGEST,
                    "the problem is told",
                    () -> server.get("/deliveries").body().contains("no such key is published"));
            assertThat(store.latest()).isEmpty();
            assertThat(server.get("/deliveries").body()).contains("\"parkedCases\":0");
        }
    }

    @Test
    void keysThatCannotSignAreRefusedWithTheRemedy() throws IOException {
        Path text = Files.writeString(folder.resolve("text"), "no keys");
        assertThatThrownBy(() -> new KeyFile(text).signing()).hasMessageContaining("it is no JWK Set; make one");
        Path absent = folder.resolve("absent");
        assertThatThrownBy(() -> new KeyFile(absent).signing()).hasMessageContaining("cannot be read; make it with");
        Path none = Files.writeString(folder.resolve("none"), "{\"keys\":[]}");
        assertThatThrownBy(() -> new KeyFile(none).signing()).hasMessageContaining("there is none; make one");
        Path shared = Files.writeString(
                folder.resolve("shared"), "{\"keys\":[{\"kty\":\"oct\",\"k\":\"c2VjcmV0\",\"kid\":\"1\"}]}");
        assertThatThrownBy(() -> new KeyFile(shared).signing()).hasMessageContaining("alg ES384 or RS384");
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            assertThatThrownBy(() -> RunningServer.start(
                            database,
                            "--tamponade.destinations.record.address=https://record.example/fhir",
                            "--tamponade.destinations.record.token.address=https://record.example/token"))
                    .hasRootCauseMessage("tamponade.destinations.record.token cannot be used; give token.client and"
                            + " token.keys with token.address");
        }
    }

    private static String added(Path keys) {
        CommandRun run = CommandRun.of("keys", "add", keys.toString());
        assertThat(run.code()).isZero();
        return run.out().substring(0, run.out().indexOf(' '));
    }

    private static String[] settings(FhirStore store, TokenServer tokens, Path keys) {
        String destination = "--tamponade.destinations.record.";
        return new String[] {
            destination + "address=http://127.0.0.1:" + store.port() + "/fhir",
            destination + "pause=50ms",
            destination + "token.address=" + tokens.address(),
            destination + "token.client=clinic-7",
            destination + "token.keys=" + keys
        };
    }

    private static void send(RunningServer server, int from, int to) {
        byte[] lines = String.join("\n", LINES.subList(from, to)).getBytes(StandardCharsets.UTF_8);
        assertThat(server.post("application/x-ndjson", lines).statusCode()).isLessThan(300);
        Waiting.until(
                LONGEST,
                "the record is delivered",
                () -> server.get("/ledger").body().contains("\"casesBehind\":0")
                        && server.get("/deliveries").body().contains("\"resources\":0"));
    }
}
