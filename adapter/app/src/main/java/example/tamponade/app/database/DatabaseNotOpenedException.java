package example.tamponade.app.database;

import org.flywaydb.core.api.exception.FlywayValidateException;

/** The database could not be opened; the message says which, why and what to do. */
public final class DatabaseNotOpenedException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private DatabaseNotOpenedException(String message, Throwable cause) {
        super(message, cause);
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
