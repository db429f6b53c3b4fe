package example.tamponade.app.database;

import java.nio.file.Path;

/** A file of the open database was deleted, moved or replaced: what is written from now on would be found by nobody. */
public final class DatabaseGoneException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    DatabaseGoneException(Path file) {
        super(file
                + " was deleted, moved or replaced while the adapter was running; stop the adapter, put the file back,"
                + " and start it again");
    }
}
