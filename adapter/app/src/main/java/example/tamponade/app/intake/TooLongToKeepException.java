package example.tamponade.app.intake;

import java.io.IOException;

/** A piece of an input has more bytes than are kept of one: it is neither taken nor kept, and the input ends there. */
public final class TooLongToKeepException extends IOException {

    private static final long serialVersionUID = 1L;

    TooLongToKeepException() {
        super("one piece of the input has more than " + Original.LONGEST
                + " bytes, which is more than is kept of what is"
                + " refused: neither it nor what follows it was read; send it in parts, and what follows it again");
    }
}
