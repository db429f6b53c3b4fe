package example.tamponade.app.intake;

import java.io.IOException;

/** Something has more bytes than are kept: it is neither taken nor kept, and its input ends there. */
public final class TooLongToKeepException extends IOException {

    private static final long serialVersionUID = 1L;

    TooLongToKeepException() {
        this("one piece of the input has more than " + Original.LONGEST
                + " bytes, which is more than is kept of what is"
                + " refused: neither it nor what follows it was read; send it in parts, and what follows it again");
    }

    /** What is too long, in words, with what to do. */
    public TooLongToKeepException(String message) {
        super(message);
    }
}
