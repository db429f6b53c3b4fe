package example.tamponade.app.database;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;

/** Connections to a server that is on its way up. */
final class Connections {

    private static final Duration LONGEST = Duration.ofMinutes(1);

    private Connections() {}

    /** Returns when the server takes a connection. */
    static void await(PostgresServer server) {
        Instant end = Instant.now().plus(LONGEST);
        while (true) {
            try (Connection connection =
                    DriverManager.getConnection(server.url("postgres"), server.user(), server.password())) {
                return;
            } catch (SQLException e) {
                if (Instant.now().isAfter(end)) {
                    throw new IllegalStateException("The server does not come back", e);
                }
                pause();
            }
        }
    }

    private static void pause() {
        try {
            Thread.sleep(200);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }
}
