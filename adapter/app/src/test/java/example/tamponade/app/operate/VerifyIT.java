package example.tamponade.app.operate;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.CommandRun;
import example.tamponade.app.Samples;
import example.tamponade.app.access.AccessEntry;
import example.tamponade.app.access.AccessLog;
import example.tamponade.app.access.TestCaller;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Original;
import example.tamponade.app.ledger.Arrival;
import example.tamponade.app.ledger.Ledger;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Verifying finds what is not as it was written, nothing else, and changes nothing. */
class VerifyIT {

    @TempDir
    private Path folder;

    @ParameterizedTest
    @ValueSource(strings = {"verify", "quarantine list", "quarantine show 00000000-0000-0000-0000-000000000000"})
    void makesNoDatabaseWhereThereIsNone(String command) {
        Path absent = folder.resolve("absent");
        List<String> arguments = new ArrayList<>(List.of(command.split(" ")));
        arguments.add("--data=" + absent);

        CommandRun run = CommandRun.of(arguments.toArray(String[]::new));

        assertThat(run.code()).isEqualTo(1);
        assertThat(run.err()).contains("there is no database in the folder " + absent);
        assertThat(absent).doesNotExist();
    }

    @Test
    void readsACopyWithOrWithoutItsLogAndMakesNothingBesideIt() throws IOException {
        try (TestDatabase where = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            take(where);
            Path closed = copy(where.settings().folder(), "closed");
            try (Database open = Database.open(where.settings())) {
                append(new Ledger(open), "LATE-1");
                Path running = copy(where.settings().folder(), "running");
                Files.delete(running.resolve("tamponade.sqlite-shm"));

                verifiesUntouched(closed, 1);
                verifiesUntouched(running, 2);
                verifiesUntouched(where.settings().folder(), 2);
            }
        }
    }

    @EachDatabase
    void findsNoFaultBesideAWriter(TestDatabase where) throws IOException, InterruptedException {
        take(where);
        AtomicBoolean over = new AtomicBoolean();
        try (Database open = Database.open(where.settings())) {
            Ledger ledger = new Ledger(open);
            Thread writer = new Thread(() -> {
                while (!over.get()) {
                    append(ledger, "BUSY-1");
                    append(ledger, "BUSY-" + UUID.randomUUID());
                }
            });
            writer.start();
            for (int i = 0; i < 15; i++) {
                CommandRun run = verify(where);
                assertThat(run.out() + run.err()).contains(", 0 faults");
            }
            over.set(true);
            writer.join();
        }
    }

    @EachDatabase
    void findsACaseThatIsGoneWhole(TestDatabase where) throws IOException, SQLException {
        take(where);
        try (Database open = Database.open(where.settings())) {
            append(new Ledger(open), "GONE-1");
        }
        unguarded(where, "ledger", "delete from ledger where case_key = 'case/fernglade-hp/GONE-1'");
        unguarded(where, "case_head", "delete from case_head where case_key = 'case/fernglade-hp/GONE-1'");

        assertThat(verify(where).out()).contains("case/fernglade-hp/GONE-1").doesNotContain(", 0 faults");
    }

    @EachDatabase
    void findsACommitThatWasChanged(TestDatabase where) throws SQLException {
        take(where);
        unguarded(where, "commit_chain", "update commit_chain set content = content || ' ' where number = 1");

        assertThat(verify(where).out()).contains("commit 1: is not what was written");
    }

    @EachDatabase
    void findsARefusalThatWasChangedOrIsGone(TestDatabase where) throws SQLException {
        take(where);
        unguarded(where, "refused_original", "update refused_original set content = content || ' '");
        assertThat(verify(where).out()).contains("is not what came");

        unguarded(where, "refused_original", "update refused_original set content = rtrim(content)");
        assertThat(verify(where).code()).isZero();
        unguarded(where, "quarantine_step", "delete from quarantine_step");
        assertThat(verify(where).out()).contains("its refusal or its original is not there");
        unguarded(where, "quarantine", "delete from quarantine");
        assertThat(verify(where).out()).contains("an entry of the original");
    }

    // openssl makes the keys and checks the signature: nothing of this is ours.
    @EachDatabase
    void signsWhatIsKeptAndRefusesWhatIsNotSigned(TestDatabase where) throws IOException, InterruptedException {
        take(where);
        Path ends = folder.resolve("ends.jsonl");
        openssl("genpkey", "-algorithm", "ed25519", "-out", "key.pem");
        openssl("pkey", "-in", "key.pem", "-pubout", "-out", "public.pem");

        assertThat(verify(where, "--keep=" + ends, "--sign-with=" + folder.resolve("key.pem"))
                        .code())
                .isZero();
        assertThat(openssl(
                        "pkeyutl",
                        "-verify",
                        "-pubin",
                        "-inkey",
                        "public.pem",
                        "-rawin",
                        "-in",
                        "ends.jsonl",
                        "-sigfile",
                        "ends.jsonl.sig"))
                .contains("Signature Verified Successfully");
        String signedBy = "--signed-by=" + folder.resolve("public.pem");
        assertThat(verify(where, "--against=" + ends, signedBy).code()).isZero();

        Files.writeString(ends, Files.readString(ends).replace("\"caseSeq\":", "\"caseSeq\": "));
        assertThat(verify(where, "--against=" + ends).code()).isZero();
        assertThat(verify(where, "--against=" + ends, signedBy).err()).contains("is not the signature of");
        assertThat(verify(where, "--against=" + ends, "--signed-by=" + ends).err())
                .contains("does not hold an Ed25519 key");
        assertThat(verify(where, signedBy).err()).contains("give --against FILE too");
    }

    // Whoever can write to the database can write the whole chain anew; what was kept shows it.
    @EachDatabase
    void findsAChainOfCommitsThatWasWrittenAnew(TestDatabase where) throws IOException, SQLException {
        take(where);
        Path ends = folder.resolve("ends.jsonl");
        verify(where, "--keep=" + ends);
        unguarded(where, "commit_chain", "delete from commit_chain");

        assertThat(verify(where, "--against=" + ends).out()).contains("is not the one whose link was kept elsewhere");
    }

    @EachDatabase
    void findsAnEntryOfTheAccessLogThatWasChanged(TestDatabase where) throws IOException, SQLException {
        Path ends = folder.resolve("ends.jsonl");
        try (Database database = Database.open(where.settings())) {
            AccessLog log = new AccessLog(database);
            AccessEntry entry =
                    AccessEntry.of(Instant.EPOCH, TestCaller.SENDER, "", AccessEntry.Action.READ, "cases/a/1", "", 0);
            database.transactions().executeWithoutResult(status -> log.add(List.of(entry, entry)));
        }
        assertThat(verify(where, "--keep=" + ends).out()).contains("2 entries of the access log checked");
        unguarded(
                where, "access_log", "update access_log set content = replace(content, 'a/1', 'b/1') where number = 1");

        assertThat(verify(where).out()).contains("entry of the access log 1: is not what was written");
        unguarded(where, "access_log", "delete from access_log");
        assertThat(verify(where, "--against=" + ends).out())
                .contains("entry of the access log 2: is not the one whose link");
    }

    private String openssl(String... arguments) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of("openssl"));
        command.addAll(List.of(arguments));
        Process run = new ProcessBuilder(command)
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .start();
        String out = new String(run.getInputStream().readAllBytes(), UTF_8);
        assertThat(run.waitFor()).as(out).isZero();
        return out;
    }

    private static void verifiesUntouched(Path data, int cases) throws IOException {
        List<String> before = files(data);
        CommandRun run = CommandRun.of("verify", "--data=" + data);
        assertThat(run.out() + run.err())
                .contains(
                        " of " + (cases + 1) + " cases and facilities checked, and 1 entries of quarantine, 0 faults");
        assertThat(files(data)).isEqualTo(before);
    }

    private static List<String> files(Path folder) throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(it -> it.getFileName() + " " + it.toFile().length())
                    .sorted()
                    .toList();
        }
    }

    private Path copy(Path from, String name) throws IOException {
        Path to = Files.createDirectory(folder.resolve(name));
        try (Stream<Path> files = Files.list(from)) {
            for (Path file : files.toList()) {
                Files.copy(file, to.resolve(file.getFileName()));
            }
        }
        return to;
    }

    // The sample's events of one case, one of its facility, and a refused line.
    private static void take(TestDatabase where) {
        try {
            Path file = Files.createTempFile("verify", ".jsonl");
            Files.writeString(
                    file,
                    new String(Samples.events("settled"), UTF_8)
                                    .lines()
                                    .limit(9)
                                    .reduce("", (a, b) -> a + b + "\n") + "{\"type\":\"unheard of\"}\n");
            List<String> arguments = new ArrayList<>(List.of("take", "--in", file.toString()));
            arguments.addAll(where.commandOptions());
            assertThat(CommandRun.of(arguments.toArray(String[]::new)).code()).isEqualTo(2);
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private static CommandRun verify(TestDatabase where, String... options) {
        List<String> arguments = new ArrayList<>(List.of("verify"));
        arguments.addAll(List.of(options));
        arguments.addAll(where.commandOptions());
        return CommandRun.of(arguments.toArray(String[]::new));
    }

    private static void append(Ledger ledger, String caseId) {
        String text = """
                {"eventId":"%s","caseId":"%s","facilityId":"fernglade-hp","occurredAt":"2026-03-03T10:00:00Z",\
                "recordedAt":"2026-03-03T10:00:00Z","recordedBy":{"id":"fg-17","role":"birth-attendant"},\
                "type":"note","data":{"text":"warm and dry"}}""".formatted(UUID.randomUUID(), caseId);
        Original original = Original.of(text.getBytes(UTF_8));
        ledger.append(List.of(new Arrival(
                new Intake.Taken(EventReader.stored(text), text, original.digest()),
                InputFormat.EVENT,
                original,
                Instant.now())));
    }

    // As somebody could who may do anything on the database.
    private static void unguarded(TestDatabase where, String table, String change) throws SQLException {
        try (Connection connection = where.connect();
                Statement statement = connection.createStatement()) {
            boolean sqlite = where.toString().equals("SQLITE");
            for (String guard : List.of("is_not_updated", "is_not_deleted", "is_not_changed", "keeps_its_content")) {
                statement.execute("drop trigger if exists " + table + "_" + guard + (sqlite ? "" : " on " + table));
            }
            statement.execute(change);
        }
    }
}
