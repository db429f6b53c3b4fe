package example.tamponade.app.path;

import example.tamponade.app.database.DatabaseGoneException;
import java.sql.SQLException;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.core.NestedRuntimeException;

/** Says what a failure of the database means for those who run the adapter. */
final class LedgerFailures {

    // PostgreSQL: disk_full, insufficient_resources. SQLite tells by words only.
    private static final Set<String> FULL_STATES = Set.of("53100", "53000");

    private LedgerFailures() {}

    static LedgerFailedException of(Throwable failure) {
        if (failure instanceof LedgerFailedException known) {
            return known;
        }
        if (failure instanceof DatabaseGoneException) {
            return failed(String.valueOf(failure.getMessage()), false, failure);
        }
        SQLException sql = sqlException(failure);
        if (sql == null && !(failure instanceof NestedRuntimeException)) {
            return failed("the adapter itself failed (" + failure + "); see its log and report it", false, failure);
        }
        String words = String.valueOf(sql == null ? failure.getMessage() : sql.getMessage());
        String lower = words.toLowerCase(Locale.ROOT);
        if (sql != null && FULL_STATES.contains(String.valueOf(sql.getSQLState())) || lower.contains("sqlite_full")) {
            return failed("there is no room left for the database; free space on its disk", true, failure);
        }
        if (lower.contains("readonly") || lower.contains("read-only")) {
            return failed("the database can be read but not written; check its folder's permissions", false, failure);
        }
        return failed("the database does not answer (" + words + "); check that it runs", false, failure);
    }

    private static LedgerFailedException failed(String what, boolean full, Throwable failure) {
        return new LedgerFailedException(
                "not taken: " + what + ", then send this again; nothing of it was acknowledged", full, failure);
    }

    private static @Nullable SQLException sqlException(Throwable failure) {
        for (Throwable cause = failure; cause != null; cause = cause.getCause()) {
            if (cause instanceof SQLException sql) {
                return sql;
            }
        }
        return null;
    }
}
