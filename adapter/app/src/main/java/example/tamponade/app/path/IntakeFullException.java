package example.tamponade.app.path;

import java.time.Duration;

/** More was handed in than can be written down in time. Nothing of it was taken; the sender is to try again later. */
public final class IntakeFullException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /** After how long trying again makes sense. */
    public static final Duration TRY_AGAIN_AFTER = Duration.ofSeconds(2);

    /** Says what is full. */
    public IntakeFullException(String what) {
        super(what + "; nothing of this was taken, send it again in " + TRY_AGAIN_AFTER.toSeconds() + " s or later");
    }
}
