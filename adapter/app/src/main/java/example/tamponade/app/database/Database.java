package example.tamponade.app.database;

import com.zaxxer.hikari.HikariConfig;
import com.zaxxer.hikari.HikariDataSource;
import com.zaxxer.hikari.pool.HikariPool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Objects;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionOperations;
import org.springframework.transaction.support.TransactionTemplate;

/** An open database with its tables. Safe for use by several threads. */
public final class Database implements AutoCloseable {

    private static final Duration WAIT_FOR_A_CONNECTION = Duration.ofSeconds(5);
    private static final int CONNECTIONS = 8;
    private static final int READERS = 4;

    private final HikariDataSource source;
    private final HikariDataSource readers;
    private final Dialect dialect;
    private final JdbcTemplate template;
    private final TransactionTemplate transactions;
    private final @Nullable DatabaseFiles files;

    private Database(
            HikariDataSource source, HikariDataSource readers, Dialect dialect, @Nullable DatabaseFiles files) {
        this.files = files;
        this.source = source;
        this.readers = readers;
        this.dialect = dialect;
        this.template = new JdbcTemplate(source);
        this.transactions = new TransactionTemplate(new Transactions(source));
    }

    /**
     * Opens the database and makes or changes its tables where they are not those of this version.
     *
     * @throws IOException when the folder of the embedded database cannot be made
     * @throws DatabaseNotOpenedException when it cannot be opened or its tables are of another version
     */
    public static Database open(DatabaseSettings settings) throws IOException {
        String url = settings.url();
        DatabaseFiles files = url == null ? DatabaseFiles.in(settings.folder()) : null;
        if (files != null) {
            NativeLibrary.unpackIn(settings.folder());
        }
        HikariConfig config = url == null ? embedded(Objects.requireNonNull(files)) : server(settings, url);
        try {
            return open(new HikariDataSource(config), files);
        } catch (HikariPool.PoolInitializationException | FlywayException e) {
            throw DatabaseNotOpenedException.of(settings, e);
        }
    }

    /**
     * Opens the database to read only. Nothing is made or changed, and a transaction sees one state of it.
     *
     * @throws IOException when a copy that is needed to read it cannot be made
     * @throws DatabaseNotOpenedException when there is none, it cannot be opened or its tables are of another version
     */
    public static Database openToRead(DatabaseSettings settings) throws IOException {
        String url = settings.url();
        HikariConfig config = url == null ? embeddedToRead(settings.folder()) : serverToRead(settings, url);
        try {
            HikariDataSource source = new HikariDataSource(config);
            Dialect dialect = url == null ? Dialect.SQLITE : Dialect.POSTGRESQL;
            try {
                migrations(source, dialect).validate();
            } catch (RuntimeException e) {
                source.close();
                throw e;
            }
            return new Database(source, source, dialect, null);
        } catch (HikariPool.PoolInitializationException | FlywayException e) {
            throw DatabaseNotOpenedException.of(settings, e);
        }
    }

    private static HikariConfig embeddedToRead(Path folder) throws IOException {
        HikariConfig config = new HikariConfig();
        config.setMaxLifetime(0);
        config.setJdbcUrl("jdbc:sqlite:" + ReadOnlyFiles.in(folder).address());
        config.setMaximumPoolSize(1);
        return config;
    }

    private static HikariConfig serverToRead(DatabaseSettings settings, String url) {
        HikariConfig config = server(settings, url);
        config.setConnectionInitSql(
                "set session characteristics as transaction isolation level repeatable read, read only");
        return config;
    }

    private static Flyway migrations(HikariDataSource source, Dialect dialect) {
        return Flyway.configure()
                .dataSource(source)
                .locations(dialect.migrations().toArray(String[]::new))
                .javaMigrations(new V4__Facility_in_case_key())
                .load();
    }

    private static Database open(HikariDataSource source, @Nullable DatabaseFiles files) throws IOException {
        Dialect dialect = files == null ? Dialect.POSTGRESQL : Dialect.SQLITE;
        try {
            migrations(source, dialect).migrate();
        } catch (RuntimeException e) {
            source.close();
            throw e;
        }
        if (files != null) {
            files.remember();
        }
        return new Database(source, files == null ? source : readers(files), dialect, files);
    }

    // A commit is on disk when it returns: write-ahead log and full synchronisation. One writer at a time is all that
    // SQLite has, so one connection serves all. Every transaction begins with a statement that writes: beside another
    // process it waits there for its turn, where it can be rolled back.
    private static HikariConfig embedded(DatabaseFiles files) {
        HikariConfig config = new HikariConfig();
        // One connection for good: with the last one SQLite takes the log away.
        config.setMaxLifetime(0);
        config.setJdbcUrl("jdbc:sqlite:" + files.address()
                + "&journal_mode=WAL&synchronous=FULL&foreign_keys=true&busy_timeout=10000");
        config.setMaximumPoolSize(1);
        return config;
    }

    // Beside the one that writes: a long search keeps no event from being written down.
    private static HikariDataSource readers(DatabaseFiles files) {
        HikariConfig config = new HikariConfig();
        config.setMaxLifetime(0);
        config.setJdbcUrl("jdbc:sqlite:" + files.address() + "&busy_timeout=10000");
        config.setConnectionInitSql("pragma query_only = on");
        config.setMaximumPoolSize(READERS);
        return new HikariDataSource(config);
    }

    private static HikariConfig server(DatabaseSettings settings, String url) {
        HikariConfig config = new HikariConfig();
        config.setJdbcUrl(url);
        config.setUsername(settings.user());
        config.setPassword(settings.password());
        config.setMaximumPoolSize(CONNECTIONS);
        config.setConnectionTimeout(WAIT_FOR_A_CONNECTION.toMillis());
        // A commit returns when it is on disk, whatever the server's default.
        config.setConnectionInitSql("set synchronous_commit = on");
        config.addDataSourceProperty("reWriteBatchedInserts", "true");
        return config;
    }

    /** What this database says in its own way. */
    public Dialect dialect() {
        return dialect;
    }

    /** For statements. */
    public JdbcClient jdbc() {
        return JdbcClient.create(template);
    }

    /** For statements that read what is committed, and may take a while. */
    public JdbcClient reader() {
        return JdbcClient.create(readers);
    }

    /** For statements over many rows at once. */
    public JdbcTemplate batches() {
        return template;
    }

    /** For what is to happen wholly or not at all; a transaction within another is part of it. */
    public TransactionOperations transactions() {
        return transactions;
    }

    /**
     * Copies the database, as it is at one moment, into an embedded one in a folder of its owner's alone.
     *
     * @throws IOException when the folder holds a database already, or cannot be written
     */
    public void copyTo(Path folder) throws IOException {
        Path file = OwnersFolder.make(folder).resolve(DatabaseFiles.NAME);
        if (Files.exists(file)) {
            throw new IOException(folder + " holds a database already; name another folder");
        }
        if (dialect == Dialect.SQLITE) {
            template.update("vacuum into ?", file.toAbsolutePath().toString());
            DatabaseFiles.in(folder);
            return;
        }
        try (Database copy = open(new DatabaseSettings(folder, null, null, null))) {
            DatabaseCopy.copy(this, copy);
        }
    }

    /**
     * Looks whether what was committed can still be found: whether the files of the embedded database are those that were
     * opened. A server looks after its own.
     *
     * @throws DatabaseGoneException when one was deleted, moved or replaced
     */
    public void demandSameFiles() {
        if (files != null) {
            files.demandSame();
        }
    }

    @Override
    public void close() {
        readers.close();
        source.close();
    }
}
