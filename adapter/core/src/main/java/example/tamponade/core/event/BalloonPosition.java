package example.tamponade.core.event;

/** Where the tamponade chamber lies. */
public enum BalloonPosition implements Coded {
    /** In the uterus. */
    IN_THE_UTERUS,
    /** In the vagina. */
    IN_THE_VAGINA,
    /** Displaced. */
    DISPLACED,
    /** Expelled. */
    EXPELLED
}
