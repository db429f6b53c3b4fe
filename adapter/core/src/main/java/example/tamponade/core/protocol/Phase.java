package example.tamponade.core.protocol;

import example.tamponade.core.event.Coded;

/** The phases of a tamponade. */
public enum Phase implements Coded {
    /** A haemorrhage is recognised; the chamber in the uterus holds nothing yet. */
    NOT_INSERTED,
    /** The chamber is filled and bleeding is not yet controlled, or not any more. */
    BEING_FILLED,
    /** Bleeding is controlled and nothing was let out since. */
    BLEEDING_CONTROLLED,
    /** The balloon is being deflated in steps. */
    DEFLATION,
    /** The chamber is empty and still inside. */
    DEFLATED,
    /** Removed or expelled. */
    REMOVED
}
