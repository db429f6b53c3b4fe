package example.tamponade.app.path;

/** The database could not write down what was handed in. Nothing of it is acknowledged; the sender is to try again. */
public final class LedgerFailedException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private final boolean full;

    /**
     * Says what failed.
     *
     * @param full whether there is no room left
     */
    LedgerFailedException(String message, boolean full, Throwable cause) {
        super(message, cause);
        this.full = full;
    }

    /** Whether there is no room left for the database. */
    public boolean full() {
        return full;
    }
}
