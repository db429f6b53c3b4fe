package example.tamponade.app.delivery;

/** A destination takes nothing now. */
final class UnavailableException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    UnavailableException(String message) {
        super(message);
    }
}
