package example.tamponade.app.search;

/** A search that cannot be done as it is; the message names the place and the remedy. */
public final class SearchRefusedException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    SearchRefusedException(String message) {
        super(message);
    }
}
