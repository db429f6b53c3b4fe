package example.tamponade.app.database;

import java.nio.file.Path;
import org.flywaydb.core.api.exception.FlywayValidateException;
import org.jspecify.annotations.Nullable;

/** The database could not be opened; the message says which, why and what to do. */
public final class DatabaseNotOpenedException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private DatabaseNotOpenedException(String message, @Nullable Throwable cause) {
        super(message, cause);
    }

    static DatabaseNotOpenedException writableByOthers(Path path) {
        return new DatabaseNotOpenedException(
                "others than its owner can write to " + path
                        + ", and so change what was recorded; take their permission" + " away: chmod go-w " + path,
                null);
    }

    static DatabaseNotOpenedException absent(Path folder) {
        return new DatabaseNotOpenedException(
                "there is no database in the folder " + folder
                        + "; name the folder of the one that is meant with --data",
                null);
    }

    static DatabaseNotOpenedException of(DatabaseSettings settings, RuntimeException failure) {
        if (failure instanceof FlywayValidateException) {
            return new DatabaseNotOpenedException(
                    "the tables of " + settings + " were made by another version of the adapter; name another database,"
                            + " or take its events out with the version that made it",
                    failure);
        }
        String remedy = settings.url() == null
                ? "check that its folder can be written"
                : "check that the server runs, and address, user and password";
        return new DatabaseNotOpenedException(
                "cannot open " + settings + ": " + deepest(failure) + "; " + remedy, failure);
    }

    private static String deepest(Throwable failure) {
        Throwable deepest = failure;
        while (deepest.getCause() != null) {
            deepest = deepest.getCause();
        }
        return String.valueOf(deepest.getMessage()).lines().findFirst().orElse("");
    }
}
