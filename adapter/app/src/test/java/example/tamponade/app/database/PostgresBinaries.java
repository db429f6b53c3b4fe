package example.tamponade.app.database;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.springframework.util.FileSystemUtils;

/** PostgreSQL from binaries on the class path. */
final class PostgresBinaries implements PostgresServer {

    private final Path data;
    private EmbeddedPostgres server;

    private PostgresBinaries(Path data) throws IOException {
        this.data = data;
        this.server = start(data, 0);
    }

    static PostgresBinaries start() {
        try {
            PostgresBinaries started = new PostgresBinaries(Files.createTempDirectory("tamponade-postgres"));
            Runtime.getRuntime().addShutdownHook(new Thread(started::close));
            return started;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    // Started for tests, the binaries do not wait for the disk unless they are told to.
    private static EmbeddedPostgres start(Path data, int port) throws IOException {
        return EmbeddedPostgres.builder()
                .setDataDirectory(data.resolve("cluster"))
                .setCleanDataDirectory(false)
                .setRegisterShutdownHook(false)
                .setPort(port)
                .setServerConfig("fsync", "on")
                .setServerConfig("synchronous_commit", "on")
                .start();
    }

    @Override
    public String url(String database) {
        return "jdbc:postgresql://localhost:" + server.getPort() + "/" + database;
    }

    @Override
    public String user() {
        return "postgres";
    }

    @Override
    public String password() {
        return "postgres";
    }

    @Override
    public void kill() {
        try {
            long pid = Long.parseLong(
                    Files.readAllLines(data.resolve("cluster/postmaster.pid")).get(0));
            ProcessHandle server = ProcessHandle.of(pid).orElseThrow();
            server.destroyForcibly();
            server.onExit().join();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public void restart() {
        try {
            int port = server.getPort();
            server.close();
            server = start(data, port);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public void close() {
        try {
            server.close();
            FileSystemUtils.deleteRecursively(data);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public String toString() {
        return "embedded binaries";
    }
}
