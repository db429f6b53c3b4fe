package example.tamponade.core.event;

/** How the baby was at birth. */
public enum BabyOutcome implements Coded {
    /** Born alive. */
    LIVE_BORN,
    /** Born without signs of life. */
    STILLBORN
}
