package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.time.Duration;
import java.time.Instant;

/**
 * Is a haemorrhage primary or secondary, by the time since birth? Exactly at the end of the first period it is primary,
 * exactly at the end of the second it is secondary.
 *
 * <p>Source: WHO recommendations for the prevention and treatment of postpartum haemorrhage, 2012 (within 24 h); RCOG
 * Green-top Guideline 52 (24 h to 12 weeks).
 */
public enum HaemorrhagePeriod implements Coded {
    /** Before birth. */
    BEFORE_BIRTH,
    /** Primary. */
    PRIMARY,
    /** Secondary. */
    SECONDARY,
    /** Later than a postpartum haemorrhage. */
    LATER;

    /**
     * The period that a time belongs to.
     *
     * @param birth time of birth
     * @param at time of the haemorrhage
     * @param primaryWithin length of the first period, from the care protocol
     * @param secondaryWithin time since birth at which the second ends, from the care protocol
     */
    public static HaemorrhagePeriod of(Instant birth, Instant at, Duration primaryWithin, Duration secondaryWithin) {
        if (at.isBefore(birth)) {
            return BEFORE_BIRTH;
        }
        if (!at.isAfter(birth.plus(primaryWithin))) {
            return PRIMARY;
        }
        return at.isAfter(birth.plus(secondaryWithin)) ? LATER : SECONDARY;
    }
}
