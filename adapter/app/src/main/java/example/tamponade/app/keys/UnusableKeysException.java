package example.tamponade.app.keys;

import java.nio.file.Path;

/** A file of keys cannot be used. */
public final class UnusableKeysException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    UnusableKeysException(Path file, String why) {
        super("the keys in " + file + " cannot be used: " + why);
    }
}
