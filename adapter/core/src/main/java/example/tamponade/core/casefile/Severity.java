package example.tamponade.core.casefile;

import example.tamponade.core.event.Coded;

/** How much a flag or an issue weighs. */
public enum Severity implements Coded {
    /** Look when there is time. */
    LOW,
    /** Look soon. */
    MODERATE,
    /** Look now. */
    HIGH
}
