package example.tamponade.app.database;

import org.slf4j.LoggerFactory;

/**
 * A PostgreSQL server for tests: a container of the image that the system property {@code tamponade.test.postgres-image}
 * names, otherwise embedded binaries. Either way what it commits is on disk. A server that does not start fails the test.
 */
public interface PostgresServer extends AutoCloseable {

    /** The one that all tests of this run share. */
    static PostgresServer shared() {
        return SharedPostgres.SERVER;
    }

    /** Starts one that nobody else uses. */
    static PostgresServer start() {
        String image = System.getProperty("tamponade.test.postgres-image");
        PostgresServer server = image == null ? PostgresBinaries.start() : PostgresContainer.start(image);
        LoggerFactory.getLogger(PostgresServer.class).info("Tests use PostgreSQL from {}", server);
        return server;
    }

    /** The JDBC address of one of its databases. */
    String url(String database);

    String user();

    String password();

    /** Kills it with SIGKILL. */
    void kill();

    /** Starts it again on the same data and the same port, and waits until it takes connections. */
    void restart();

    @Override
    void close();
}
