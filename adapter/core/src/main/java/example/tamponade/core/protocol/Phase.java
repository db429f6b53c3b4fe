package example.tamponade.core.protocol;

import example.tamponade.core.event.Coded;

/** The phases of a tamponade. */
public enum Phase implements Coded {
    /** A haemorrhage is recognised; the chamber in the uterus holds nothing yet. */
    BEFORE,
    /** The chamber is filled and bleeding is not yet controlled, or not any more. */
    TESTING,
    /** Bleeding is controlled and nothing was let out since. */
    HOLDING,
    /** The balloon is being let down. */
    EASING,
    /** The chamber is empty and still inside. */
    WAITING,
    /** Removed or expelled. */
    OUT
}
