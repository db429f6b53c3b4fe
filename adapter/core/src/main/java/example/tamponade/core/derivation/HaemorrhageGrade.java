package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.math.BigDecimal;

/**
 * Is the blood lost a postpartum haemorrhage, and is it severe? Each grade begins with its volume.
 *
 * <p>Source: WHO recommendations for the prevention and treatment of postpartum haemorrhage, 2012 (500 mL); severe as
 * 1000 mL in Gallos I et al., N Engl J Med 2023;389:11-21, doi 10.1056/NEJMoa2303966.
 */
public enum HaemorrhageGrade implements Coded {
    /** No haemorrhage by volume. */
    NONE,
    /** Postpartum haemorrhage. */
    HAEMORRHAGE,
    /** Severe postpartum haemorrhage. */
    SEVERE;

    /**
     * The grade of a loss.
     *
     * @param lostMl unrounded cumulative blood loss, mL
     * @param haemorrhageFromMl first volume that is a haemorrhage, mL, from the care protocol
     * @param severeFromMl first volume that is severe, mL, from the care protocol
     */
    public static HaemorrhageGrade of(BigDecimal lostMl, BigDecimal haemorrhageFromMl, BigDecimal severeFromMl) {
        if (lostMl.compareTo(severeFromMl) >= 0) {
            return SEVERE;
        }
        return lostMl.compareTo(haemorrhageFromMl) >= 0 ? HAEMORRHAGE : NONE;
    }
}
