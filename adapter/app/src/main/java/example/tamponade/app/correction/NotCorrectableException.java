package example.tamponade.app.correction;

/** An entry of quarantine cannot be dealt with. */
public final class NotCorrectableException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private final boolean unknown;

    private NotCorrectableException(String message, boolean unknown) {
        super(message);
        this.unknown = unknown;
    }

    static NotCorrectableException unknown(String message) {
        return new NotCorrectableException(message, true);
    }

    static NotCorrectableException moved(String message) {
        return new NotCorrectableException(message, false);
    }

    /** Whether there is no such entry, rather than one that has been dealt with. */
    public boolean unknown() {
        return unknown;
    }
}
