package example.tamponade.core.event;

/** How the mother left the case. */
public enum MotherOutcome implements Coded {
    /** Recovered. */
    RECOVERED,
    /** Sent on to another facility. */
    REFERRED,
    /** Went to surgery. */
    SURGERY,
    /** Died. */
    DIED
}
