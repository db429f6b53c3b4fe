package example.tamponade.app.carry;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.CommandRun;
import example.tamponade.app.Samples;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.serve.RunningServer;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A stick between two adapters. */
class CarryIT {

    private static final String SPREAD = "marrowby-cross/MRX-2026-0999";

    @TempDir
    private Path folder;

    @EachDatabase
    void whatIsCarriedIsOnRecordThereAsItIsHere(TestDatabase here) {
        Path stick = folder.resolve("stick");
        try (TestDatabase there = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            for (String sample : Samples.CASES) {
                run(here, "take", "--in", Samples.file(sample, folder).toString());
            }
            run(here, "take", "--in", spread("referred", "pretty").toString());
            assertThat(run(here, "carry", "--to", stick.toString()).out()).contains("events in 1 files are in");

            assertThat(run(there, "take", "--carried", stick.toString()).code()).isZero();
            Map<String, String> carried = served(there);
            Map<String, String> original = served(here);
            assertThat(carried).hasSize(6).containsOnlyKeys(original.keySet());
            // It is the one line there that the digest is of.
            carried.remove(SPREAD);
            original.remove(SPREAD);
            assertThat(carried.equals(original)).isTrue();
            assertThat(run(there, "take", "--carried", stick.toString()).err()).contains(" 0 stored, ", " 0 refused");
            assertThat(run(there, "verify").out()).contains(" 0 faults");
        }
    }

    @Test
    void whatCameSinceIsCarriedNext() throws IOException {
        List<String> lines = new String(Samples.events("settled"), StandardCharsets.UTF_8)
                .lines()
                .toList();
        Path early = Files.write(folder.resolve("early.jsonl"), lines.subList(0, 100));
        Path late = Files.write(folder.resolve("late.jsonl"), lines.subList(100, lines.size()));
        try (TestDatabase here = TestDatabase.of(TestDatabase.Kind.SQLITE);
                TestDatabase there = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            run(here, "take", "--in", early.toString());
            run(here, "carry", "--to", folder.resolve("first").toString());
            run(here, "take", "--in", late.toString());
            String before = folder.resolve("first/manifest.json").toString();
            assertThat(run(here, "carry", "--to", folder.resolve("second").toString(), "--after", before)
                            .out())
                    .startsWith(lines.size() - 100 + " events");

            // In whatever order they are taken.
            run(there, "take", "--carried", folder.resolve("second").toString());
            run(there, "take", "--carried", folder.resolve("first").toString());
            assertThat(events(there)).isEqualTo(events(here));
        }
    }

    @Test
    void onlyTheFacilitiesThatAreNamedAreCarried() throws IOException {
        try (TestDatabase here = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            for (String sample : Samples.CASES) {
                run(here, "take", "--in", Samples.file(sample, folder).toString());
            }
            run(here, "carry", "--to", folder.resolve("stick").toString(), "--of", "marrowby-cross");

            assertThat(Manifest.read(folder.resolve("stick/manifest.json"))
                            .ends()
                            .keySet())
                    .containsExactly("case/marrowby-cross/MRX-2026-0048", "facility/marrowby-cross");
        }
    }

    @Test
    void aFolderThatIsNotAsItWasWrittenIsRefusedWhole() throws IOException {
        Path stick = folder.resolve("stick");
        try (TestDatabase here = TestDatabase.of(TestDatabase.Kind.SQLITE);
                TestDatabase there = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            run(here, "take", "--in", Samples.file("settled", folder).toString());
            run(here, "carry", "--to", stick.toString());
            Path part = stick.resolve("events-0001.ndjson");
            Path manifest = stick.resolve("manifest.json");
            String events = Files.readString(part);
            String named = Files.readString(manifest);

            Files.writeString(part, events.replaceFirst("116", "117"));
            assertRefused(there, stick, "events-0001.ndjson was changed");
            Files.delete(part);
            assertRefused(there, stick, "events-0001.ndjson is missing");
            Files.writeString(part, events);
            Files.writeString(stick.resolve("events-0002.ndjson"), events);
            assertRefused(there, stick, "events-0002.ndjson is not in the manifest");
            Files.delete(stick.resolve("events-0002.ndjson"));
            Files.writeString(manifest, named.replaceFirst("(?s)\"parts\" : \\[ (\\{[^}]*})", "\"parts\":[ $1, $1"));
            assertRefused(there, stick, "events-0001.ndjson is named twice");
            Files.writeString(manifest, named.replace("events-0001.ndjson", "../early.jsonl"));
            assertRefused(there, stick, "is no name of a part");
            Files.writeString(manifest, named.substring(0, named.length() / 2));
            assertRefused(there, stick, "is no manifest");
            Files.writeString(manifest, named.replaceFirst("\"version\" : 1", "\"version\" : 2"));
            assertRefused(there, stick, "is of version 2");
            Files.delete(manifest);
            assertRefused(there, stick, "manifest.json is missing");

            Files.writeString(manifest, named);
            assertThat(run(there, "take", "--carried", stick.toString()).code()).isZero();
            assertThat(run(here, "carry", "--to", stick.toString()).err()).contains("is not empty");
            assertThat(run(there, "take").err()).contains("give --in FILE, or --carried DIR");
        }
    }

    // openssl makes the keys: nothing of them is ours.
    @Test
    void aFolderIsTakenFromWhoSignedItAlone() throws IOException, InterruptedException {
        Path stick = folder.resolve("stick");
        openssl("genpkey", "-algorithm", "ed25519", "-out", "key.pem");
        openssl("pkey", "-in", "key.pem", "-pubout", "-out", "public.pem");
        String signedBy = "--signed-by=" + folder.resolve("public.pem");
        try (TestDatabase here = TestDatabase.of(TestDatabase.Kind.SQLITE);
                TestDatabase there = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            run(here, "take", "--in", Samples.file("settled", folder).toString());
            run(
                    here,
                    "carry",
                    "--to",
                    stick.toString(),
                    "--sign-with",
                    folder.resolve("key.pem").toString());
            openssl(
                    "pkeyutl",
                    "-verify",
                    "-pubin",
                    "-inkey",
                    "public.pem",
                    "-rawin",
                    "-in",
                    "stick/manifest.json",
                    "-sigfile",
                    "stick/manifest.json.sig");
            Path manifest = stick.resolve("manifest.json");
            String named = Files.readString(manifest);

            Files.writeString(manifest, named + "\n");
            assertThat(run(there, "take", "--carried", stick.toString(), signedBy)
                            .err())
                    .contains("is not the signature of");
            Files.writeString(manifest, named);
            assertThat(run(there, "take", "--carried", stick.toString(), signedBy)
                            .code())
                    .isZero();
        }
    }

    private static void assertRefused(TestDatabase there, Path stick, String fault) {
        CommandRun refused = run(there, "take", "--carried", stick.toString());
        assertThat(refused.code()).isEqualTo(1);
        assertThat(refused.err()).contains(fault).contains("nothing was taken");
        assertThat(run(there, "verify").out()).matches("(?s)|0 events.*");
    }

    private void openssl(String... arguments) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of("openssl"));
        command.addAll(List.of(arguments));
        assertThat(new ProcessBuilder(command)
                        .directory(folder.toFile())
                        .start()
                        .waitFor())
                .isZero();
    }

    // An event whose JSON has line breaks, as somebody may post it, in a case of its own.
    private Path spread(String sample, String name) {
        JsonNode event = JsonMapper.shared()
                .readTree(new String(Samples.events(sample), StandardCharsets.UTF_8)
                        .lines()
                        .skip(3)
                        .findFirst()
                        .orElseThrow()
                        .replace("MRX-2026-0048", "MRX-2026-0999")
                        .replaceFirst(
                                "\"eventId\":\"[^\"]*\"", "\"eventId\":\"7a0c2f7e-9a43-4b8e-9d0e-5b1f2f1f0a01\""));
        try {
            return Files.writeString(folder.resolve(name + ".json"), event.toPrettyString());
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    private static CommandRun run(TestDatabase database, String... arguments) {
        List<String> command = new ArrayList<>(List.of(arguments));
        command.addAll(database.commandOptions());
        return CommandRun.of(command.toArray(String[]::new));
    }

    private static Map<String, String> served(TestDatabase database) {
        Map<String, String> served = new TreeMap<>();
        try (RunningServer server = RunningServer.start(database)) {
            JsonMapper.shared()
                    .readTree(server.get("/cases").body())
                    .forEach(it -> served.put(
                            it.asString(),
                            // How often each was told depends on how many events came at once.
                            server.get("/cases/" + it.asString()).body().replaceAll("\"versionId\":\"\\d+\"", "")));
        }
        return served;
    }

    private static List<String> events(TestDatabase database) {
        return Stream.of(run(database, "verify").out().split("\n"))
                .filter(it -> it.contains("events of"))
                .toList();
    }
}
