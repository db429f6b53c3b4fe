package example.tamponade.app.convert;

/** What should be the output of an earlier conversion is not. */
final class UnreadableOutputException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    UnreadableOutputException(String message) {
        super(message);
    }
}
