package example.tamponade.core.casefile;

import example.tamponade.core.event.Coded;

/** How a case came out, in the classes that an audit counts. */
public enum OutcomeClass implements Coded {
    /** Bleeding was controlled by a tamponade and the mother recovered without surgery. */
    SETTLED_WITH_TAMPONADE,
    /** The mother recovered; no device was used. */
    SETTLED_WITHOUT_TAMPONADE,
    /** The mother recovered although the tamponade did not hold. */
    SETTLED_AFTER_FAILED_TAMPONADE,
    /** The mother was sent on with the balloon in place. */
    REFERRED_WITH_BALLOON,
    /** The mother was sent on without a balloon. */
    REFERRED_WITHOUT_BALLOON,
    /** The mother went to surgery. */
    SURGERY,
    /** The mother died. */
    DIED
}
