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
    HEAVY;

    /** Whether she is bleeding: more than the light flow that follows any birth. Common practice, no source. */
    public boolean isActive() {
        return this == MODERATE || this == HEAVY;
    }
}
