package example.tamponade.app.web;

import java.io.IOException;

/** A body has more bytes than are read of one. */
final class InputTooLongException extends IOException {

    private static final long serialVersionUID = 1L;

    InputTooLongException(long longest) {
        super("the body has more than " + longest + " bytes; send it in parts, what was counted as stored need not be"
                + " sent again");
    }
}
