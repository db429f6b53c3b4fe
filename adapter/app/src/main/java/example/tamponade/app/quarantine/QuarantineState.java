package example.tamponade.app.quarantine;

import example.tamponade.core.event.Coded;

/** What became of something refused. */
public enum QuarantineState implements Coded {
    /** Nobody has dealt with it yet, or a correction was refused too. */
    OPEN,
    /** A correction of it was taken. */
    TAKEN,
    /** Somebody decided that there is nothing to take, and said why. */
    SET_ASIDE
}
