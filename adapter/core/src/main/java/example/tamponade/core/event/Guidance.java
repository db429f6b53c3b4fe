package example.tamponade.core.event;

/** How an insertion was guided or a position was checked. */
public enum Guidance implements Coded {
    /** By hand. */
    HAND,
    /** By ultrasound. */
    ULTRASOUND,
    /** Under direct vision. */
    DIRECT_VISION
}
