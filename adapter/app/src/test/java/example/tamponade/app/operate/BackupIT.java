package example.tamponade.app.operate;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.CommandRun;
import example.tamponade.app.Samples;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.Dialect;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.serve.RunningServer;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.CompletableFuture;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A copy that is made while the server takes events is whole, and another server goes on from it. */
class BackupIT {

    private static final String CASE = "/cases/marrowby-cross/MRX-2026-0048";

    @TempDir
    private Path folder;

    @Test
    void copiesOneMomentOfARunningServer() throws Exception {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                TestDatabase copy = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            Path to = copy.settings().folder();
            String before;
            try (RunningServer server = RunningServer.start(database)) {
                server.post("application/x-ndjson", Samples.events("referred"));
                before = whole(server);
                CompletableFuture<Void> more = CompletableFuture.runAsync(
                        () -> server.post("application/x-ndjson", Samples.events("settled")));
                CommandRun backup = backup(database, to);
                assertThat(backup.code()).as(backup.out() + backup.err()).isZero();
                assertThat(backup.out()).contains("0 faults");
                more.join();
            }
            assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(to)))
                    .isEqualTo("rwx------");
            try (RunningServer server = RunningServer.start(copy)) {
                assertThat(whole(server)).isEqualTo(before);
                assertThat(server.post("application/x-ndjson", Samples.events("settled"))
                                .body())
                        .contains("\"refused\":0");
            }
            assertThat(backup(database, to).err()).contains("holds a database already");
        }
    }

    @Test
    void aPostgresqlDatabaseIsCopiedAndRestored() throws IOException {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.POSTGRESQL);
                TestDatabase copy = TestDatabase.of(TestDatabase.Kind.SQLITE);
                TestDatabase restored = TestDatabase.of(TestDatabase.Kind.POSTGRESQL)) {
            String before;
            try (RunningServer server = RunningServer.start(database)) {
                server.post("application/x-ndjson", Samples.events("messy"));
                server.post("application/x-ndjson", Samples.events("referred"));
                before = whole(server);
                List<String> backup = new ArrayList<>(
                        List.of("backup", "--to=" + copy.settings().folder()));
                backup.addAll(database.commandOptions());
                CommandRun run = CommandRun.of(backup.toArray(String[]::new));
                assertThat(run.code()).as(run.out() + run.err()).isZero();
                assertThat(run.out()).contains("0 faults");
            }
            List<String> restore = new ArrayList<>(
                    List.of("restore", "--from=" + copy.settings().folder()));
            restore.addAll(restored.commandOptions());
            CommandRun run = CommandRun.of(restore.toArray(String[]::new));
            assertThat(run.code()).as(run.out() + run.err()).isZero();
            assertThat(run.out()).contains("0 faults");
            assertThat(CommandRun.of(restore.toArray(String[]::new)).err()).contains("name one that is empty");
            Map<String, Long> there = rows(database);
            Map<String, Long> copied = rows(copy);
            assertThat(there.keySet()).hasSizeGreaterThan(15);
            there.forEach(
                    (table, rows) -> assertThat(copied.get(table) > 0).as(table).isEqualTo(rows > 0));
            assertThat(copied.get("ledger")).isEqualTo(there.get("ledger"));
            assertThat(rows(restored)).isEqualTo(copied);
            for (TestDatabase one : List.of(copy, restored)) {
                try (RunningServer server = RunningServer.start(one)) {
                    assertThat(whole(server)).isEqualTo(before);
                    assertThat(server.get("/quarantine").body()).contains("\"id\"");
                    assertThat(server.post("application/x-ndjson", Samples.events("settled"))
                                    .body())
                            .contains("\"refused\":0");
                }
            }
        }
    }

    // Of every table that there is, whichever are added.
    private static Map<String, Long> rows(TestDatabase database) throws IOException {
        try (Database open = Database.open(database.settings())) {
            String tables = open.dialect() == Dialect.SQLITE
                    ? "select name from sqlite_master where type = 'table' and name not like 'sqlite_%'"
                    : "select tablename from pg_tables where schemaname = current_schema()";
            Map<String, Long> rows = new TreeMap<>();
            for (String table : open.jdbc().sql(tables).query(String.class).list()) {
                if (!table.startsWith("flyway_")) {
                    rows.put(
                            table,
                            open.jdbc()
                                    .sql("select count(*) from " + table)
                                    .query(Long.class)
                                    .single());
                }
            }
            return rows;
        }
    }

    private static CommandRun backup(TestDatabase database, Path to) {
        return CommandRun.of("backup", "--data=" + database.settings().folder(), "--to=" + to);
    }

    private static String whole(RunningServer server) {
        while (!server.get("/ledger").body().contains("\"casesBehind\":0")) {
            Thread.onSpinWait();
        }
        return server.get(CASE).body();
    }
}
