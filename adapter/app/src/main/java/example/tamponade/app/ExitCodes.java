package example.tamponade.app;

/** What the commands say by their exit codes. */
public final class ExitCodes {

    /** Everything was done. */
    public static final int ALL_WELL = 0;

    /** The work could not be done. */
    public static final int FAILURE = 1;

    /** The work was done, but something of the input was refused or found wrong. */
    public static final int SOME_REFUSED = 2;

    private ExitCodes() {}
}
