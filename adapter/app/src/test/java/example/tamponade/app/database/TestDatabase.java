package example.tamponade.app.database;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.springframework.util.FileSystemUtils;

/** A database of a test's own, empty at first and gone when closed. */
public final class TestDatabase implements AutoCloseable {

    private static final AtomicInteger COUNT = new AtomicInteger();

    private final Kind kind;
    private final DatabaseSettings settings;
    private final PostgresServer server;

    private TestDatabase(Kind kind, DatabaseSettings settings, PostgresServer server) {
        this.kind = kind;
        this.settings = settings;
        this.server = server;
    }

    /** What there is to test on. */
    public enum Kind {
        SQLITE,
        POSTGRESQL
    }

    /** Makes one. */
    public static TestDatabase of(Kind kind) {
        return switch (kind) {
            case SQLITE -> new TestDatabase(kind, new DatabaseSettings(folder(), null, null, null), null);
            case POSTGRESQL -> on(PostgresServer.shared());
        };
    }

    /** Makes one on that server. */
    public static TestDatabase on(PostgresServer server) {
        String name = "test_" + COUNT.incrementAndGet();
        execute(server, "create database " + name);
        return new TestDatabase(
                Kind.POSTGRESQL,
                new DatabaseSettings(folder(), server.url(name), server.user(), server.password()),
                server);
    }

    private static Path folder() {
        try {
            return Files.createTempDirectory("tamponade-test");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void execute(PostgresServer server, String sql) {
        try (Connection connection =
                        DriverManager.getConnection(server.url("postgres"), server.user(), server.password());
                Statement statement = connection.createStatement()) {
            statement.execute(sql);
        } catch (SQLException e) {
            throw new IllegalStateException(e);
        }
    }

    /** Where it is. */
    public DatabaseSettings settings() {
        return settings;
    }

    /** Where it is, as settings of the server. */
    public List<String> serverSettings() {
        return kind == Kind.SQLITE
                ? List.of("--tamponade.data=" + settings.folder())
                : List.of(
                        "--tamponade.data=" + settings.folder(),
                        "--tamponade.database.url=" + settings.url(),
                        "--tamponade.database.user=" + settings.user(),
                        "--tamponade.database.password=" + settings.password());
    }

    /** Where it is, as options of a command. */
    public List<String> commandOptions() {
        return kind == Kind.SQLITE
                ? List.of("--data=" + settings.folder())
                : List.of("--database=" + settings.url() + "?user=" + settings.user() + "&password="
                        + settings.password());
    }

    /** Ends every connection to it and takes no new ones; PostgreSQL only. */
    public void refuseConnections() {
        String name = name();
        execute(server, "alter database " + name + " allow_connections false");
        execute(server, "select pg_terminate_backend(pid) from pg_stat_activity where datname = '" + name + "'");
    }

    /** Takes connections again. */
    public void allowConnections() {
        execute(server, "alter database " + name() + " allow_connections true");
    }

    private String name() {
        String url = String.valueOf(settings.url());
        return url.substring(url.lastIndexOf('/') + 1);
    }

    /** A connection beside the adapter's own. */
    public Connection connect() throws SQLException {
        return kind == Kind.SQLITE
                ? DriverManager.getConnection("jdbc:sqlite:" + settings.folder().resolve("tamponade.sqlite"))
                : DriverManager.getConnection(settings.url(), settings.user(), settings.password());
    }

    @Override
    public void close() {
        try {
            FileSystemUtils.deleteRecursively(settings.folder());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        if (kind == Kind.POSTGRESQL) {
            execute(server, "drop database " + name() + " with (force)");
        }
    }

    @Override
    public String toString() {
        return kind.name();
    }
}
