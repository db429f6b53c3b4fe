package example.tamponade.core.event;

/** How much blood is coming at a check. */
public enum BleedingAmount implements Coded {
    /** None seen. */
    NONE,
    /** Light. */
    LIGHT,
    /** Moderate. */
    MODERATE,
    /** Heavy. */
    HEAVY
}
