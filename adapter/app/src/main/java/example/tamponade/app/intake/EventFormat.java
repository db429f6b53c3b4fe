package example.tamponade.app.intake;

import java.io.InputStream;

/**
 * A format that events come in. It finds the pieces and states what they say; all judging is left to {@link EventReader},
 * so that every event meets the same checks. Safe for use by several threads.
 */
public interface EventFormat {

    /**
     * Reads an input. Whatever the bytes are, the result is pieces: taken ones or refused ones.
     *
     * @param in the input; closed with the result
     */
    Pieces open(InputStream in);
}
