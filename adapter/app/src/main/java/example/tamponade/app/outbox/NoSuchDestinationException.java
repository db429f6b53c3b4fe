package example.tamponade.app.outbox;

import java.util.List;

/** Somebody asks for a destination that there is not. */
public final class NoSuchDestinationException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    NoSuchDestinationException(String destination, List<String> known) {
        super("no destination " + destination + "; "
                + (known.isEmpty()
                        ? "none was ever set (tamponade.destinations in the settings of the server)"
                        : "there are " + String.join(", ", known)));
    }
}
