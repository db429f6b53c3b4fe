package example.tamponade.app.intake;

import java.io.IOException;

/** A sender does not get on: it is not waited for any longer. */
public final class TooSlowException extends IOException {

    private static final long serialVersionUID = 1L;

    TooSlowException(long count) {
        super("the input came too slowly and is not waited for: " + count + " bytes of it were read; send at"
                + " least " + SteadyInput.BYTES_A_SECOND
                + " bytes a second, and send what was not acknowledged again");
    }
}
