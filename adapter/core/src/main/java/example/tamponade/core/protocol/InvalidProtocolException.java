package example.tamponade.core.protocol;

import java.util.List;

/** A care protocol file that cannot be used; the message lists every problem with its line. */
public final class InvalidProtocolException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    InvalidProtocolException(String file, List<String> problems) {
        super("care protocol " + file + " cannot be used:\n  " + String.join("\n  ", problems));
    }
}
