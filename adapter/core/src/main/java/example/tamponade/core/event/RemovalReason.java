package example.tamponade.core.event;

/** Why the device came out. */
public enum RemovalReason implements Coded {
    /** The course was complete. */
    COMPLETED,
    /** Bleeding was not controlled. */
    FAILED,
    /** It was expelled. */
    EXPELLED,
    /** It was taken out for or at surgery. */
    SURGERY
}
