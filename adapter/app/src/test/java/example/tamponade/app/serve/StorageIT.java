package example.tamponade.app.serve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import example.tamponade.app.crash.AdapterProcess;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.DatabaseNotOpenedException;
import example.tamponade.app.database.DatabaseSettings;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class StorageIT {

    private static final int MORE_THAN_FIT = 200;
    private static final int CONNECTIONS_AT_MOST = 10;

    @TempDir
    private Path folder;

    @Test
    void refusesEventsWhileThereIsNoRoomAndGoesOnWhenThereIs() throws SQLException {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(database)) {
            server.part(Database.class)
                    .jdbc()
                    .sql("pragma max_page_count = 1")
                    .query()
                    .singleRow();
            int stored = 0;
            String event = event();
            HttpResponse<String> answer = server.post(event);
            while (answer.statusCode() == 201 && stored < MORE_THAN_FIT) {
                stored++;
                event = event();
                answer = server.post(event);
            }

            assertThat(answer.statusCode()).isEqualTo(507);
            assertThat(answer.headers().firstValue("Retry-After")).isPresent();
            assertThat(answer.body()).contains("no room left", "free space", "nothing of it was acknowledged");
            assertThat(count(database)).isEqualTo(stored);
            assertThat(server.get("/cases").statusCode()).isEqualTo(200);

            server.part(Database.class)
                    .jdbc()
                    .sql("pragma max_page_count = 1000000")
                    .query()
                    .singleRow();
            assertThat(server.post(event).statusCode()).isEqualTo(201);
            assertThat(count(database)).isEqualTo(stored + 1);
        }
    }

    @EachDatabase
    void refusesEventsWhileTheDatabaseCanOnlyBeRead(TestDatabase database) throws SQLException {
        try (RunningServer server = RunningServer.start(database)) {
            setReadOnly(server, database, true);
            HttpResponse<String> answer = lastOf(server, it -> it.body().contains("can be read but not written"));

            assertThat(answer.statusCode()).isEqualTo(503);
            assertThat(answer.body()).contains("can be read but not written", "check");
            assertThat(count(database)).isZero();

            setReadOnly(server, database, false);
            assertThat(lastOf(server, it -> it.statusCode() == 201).statusCode())
                    .isEqualTo(201);
        }
    }

    // SQLite itself goes on writing to the file that nobody finds again.
    @ParameterizedTest
    @ValueSource(strings = {"tamponade.sqlite", "tamponade.sqlite-wal"})
    void acknowledgesNothingWhenAFileOfTheDatabaseIsGone(String name) throws IOException {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(database)) {
            assertThat(server.post(event()).statusCode()).isEqualTo(201);
            Path file = database.settings().folder().resolve(name);
            Path away = Files.move(file, file.resolveSibling("away"));
            assertIsGone(server, name);
            Files.copy(away, file);
            assertIsGone(server, name);
            Files.move(away, file, StandardCopyOption.REPLACE_EXISTING);
            assertThat(server.post(event()).statusCode()).isEqualTo(201);
        }
    }

    private static void assertIsGone(RunningServer server, String name) {
        for (HttpResponse<String> answer : List.of(server.post(event()), server.get("/ledger"))) {
            assertThat(answer.statusCode()).isEqualTo(503);
            assertThat(answer.body()).contains(name, "deleted, moved or replaced", "put the file back");
        }
    }

    @Test
    void itsFilesAreTheOwnersAlone() throws IOException {
        Path data = folder.resolve("data");
        try (Database database = Database.open(new DatabaseSettings(data, null, null, null))) {
            assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(data)))
                    .isEqualTo("rwx------");
            try (Stream<Path> files = Files.list(data)) {
                assertThat(files.filter(Files::isRegularFile).toList())
                        .hasSizeGreaterThan(1)
                        .allSatisfy(it -> assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(it)))
                                .isEqualTo("rw-------"));
            }
            assertThat(database.dialect().shared()).isFalse();
        }
        for (Path path : List.of(data.resolve("tamponade.sqlite"), data)) {
            Set<PosixFilePermission> before = Files.getPosixFilePermissions(path);
            Files.setPosixFilePermissions(path, PosixFilePermissions.fromString("rwxrw-rw-"));
            assertThatThrownBy(() -> Database.open(new DatabaseSettings(data, null, null, null)))
                    .isInstanceOf(DatabaseNotOpenedException.class)
                    .hasMessageContaining("chmod go-w " + path);
            Files.setPosixFilePermissions(path, before);
        }
    }

    // Connections that were cut off are noticed when they are used, one by one.
    private static HttpResponse<String> lastOf(RunningServer server, Predicate<HttpResponse<String>> awaited) {
        HttpResponse<String> answer = server.post(event());
        for (int i = 0; i < CONNECTIONS_AT_MOST && !awaited.test(answer); i++) {
            assertThat(answer.statusCode()).isEqualTo(503);
            answer = server.post(event());
        }
        return answer;
    }

    @Test
    void endsWithOneLineWhenItsFolderCannotBeWritten() throws IOException {
        Path file = Files.createFile(folder.resolve("register"));

        for (Path unwritable : new Path[] {Path.of("/proc"), file.resolve("data")}) {
            AdapterProcess.Ended ended = AdapterProcess.ofClassPath(new DatabaseSettings(unwritable, null, null, null))
                    .run("serve", "--port", "0");

            assertThat(ended.code()).isEqualTo(1);
            assertThat(ended.errors().lines().filter(it -> !it.contains(" INFO ")))
                    .singleElement()
                    .asString()
                    .contains(unwritable.toString(), "check");
        }
    }

    // The embedded database has one connection. The server's are cut off so that they are opened anew; the adapter
    // notices
    // with the next event.
    private static void setReadOnly(RunningServer server, TestDatabase database, boolean readOnly) throws SQLException {
        if (database.settings().url() == null) {
            server.part(Database.class).batches().execute("pragma query_only = " + readOnly);
            return;
        }
        try (Connection connection = database.connect();
                Statement statement = connection.createStatement()) {
            statement.execute("set default_transaction_read_only = off");
            statement.execute(
                    "alter database " + connection.getCatalog() + " set default_transaction_read_only = " + readOnly);
            statement.execute("select pg_terminate_backend(pid) from pg_stat_activity"
                    + " where datname = current_database() and pid <> pg_backend_pid()");
        }
    }

    private static int count(TestDatabase database) throws SQLException {
        try (Connection connection = database.connect();
                Statement statement = connection.createStatement();
                ResultSet rows = statement.executeQuery("select count(*) from ledger")) {
            rows.next();
            return rows.getInt(1);
        }
    }

    private static String event() {
        return """
                {"eventId":"%s","caseId":"FULL-1","facilityId":"quillmere-bp","type":"note",\
                "occurredAt":"2026-03-02T06:20:00+05:45","recordedAt":"2026-03-02T06:22:00+05:45",\
                "recordedBy":{"id":"qm-01","role":"midwife"},"data":{"text":"Mother awake and talking."}}""".formatted(UUID.randomUUID());
    }
}
