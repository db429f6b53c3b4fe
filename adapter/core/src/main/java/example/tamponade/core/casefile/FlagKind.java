package example.tamponade.core.casefile;

import example.tamponade.core.event.Coded;

/** The warnings that a case can carry. */
public enum FlagKind implements Coded {
    /** The shock index is in a raised band of the protocol. */
    SHOCK_INDEX_RAISED,
    /** Cumulative blood loss has reached a threshold of the protocol. */
    BLOOD_LOSS_THRESHOLD
}
