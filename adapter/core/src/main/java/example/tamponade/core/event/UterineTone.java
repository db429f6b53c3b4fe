package example.tamponade.core.event;

/** How the uterus feels. */
public enum UterineTone implements Coded {
    /** Well contracted. */
    FIRM,
    /** Not contracted. */
    SOFT,
    /** Now firm, now soft. */
    ALTERNATING
}
