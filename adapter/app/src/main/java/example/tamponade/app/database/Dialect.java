package example.tamponade.app.database;

import java.util.List;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What the databases do not say alike. */
public enum Dialect {
    /** One file and one writer at a time: a transaction locks all there is. */
    SQLITE("", false, "instr"),
    POSTGRESQL(" for update", true, "strpos");

    private final String lockRows;
    private final boolean shared;
    private final String position;

    Dialect(String lockRows, boolean shared, String position) {
        this.lockRows = lockRows;
        this.shared = shared;
        this.position = position;
    }

    /** Ends a select that locks the rows it gives until the transaction ends. */
    public String lockRows() {
        return lockRows;
    }

    /** Whether several adapters can work on one database at the same time. */
    public boolean shared() {
        return shared;
    }

    /**
     * Stands behind a table whose rows are to be found by that index. The embedded database keeps no statistics by which it
     * would see what is few; a server does.
     */
    public String by(String index) {
        return shared ? "" : " indexed by " + index;
    }

    /** The condition that a text has another in it, each as it is written in SQL; letters are told apart by their case. */
    public String contains(String text, String part) {
        return position + "(" + text + ", " + part + ") > 0";
    }

    /**
     * Waits until nobody else's transaction is where this one is now, and keeps the place to its end. The embedded database
     * has one writer at a time as it is.
     */
    public void waitForTurn(JdbcClient jdbc, String place) {
        if (shared) {
            jdbc.sql("select pg_advisory_xact_lock(hashtextextended(:place, 0))")
                    .param("place", place)
                    .query(row -> {});
        }
    }

    List<String> migrations() {
        return List.of(
                "classpath:db/migration/common", "classpath:db/migration/" + name().toLowerCase(java.util.Locale.ROOT));
    }
}
