package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.math.BigDecimal;

/**
 * Grade of shock that is expected at a volume lost around birth. Each grade begins with its volume, since the source
 * writes the upper ones as "1500 or more" and "2000 or more". Expected, not observed: the signs may say otherwise.
 *
 * <p>Source: NHS Highland guideline on postpartum haemorrhage, table 1.
 */
public enum ObstetricShockGrade implements Coded {
    /** No shock is expected. */
    NONE,
    /** Compensated, from 500 mL. */
    COMPENSATED,
    /** Mild, from 1000 mL. */
    MILD,
    /** Moderate, from 1500 mL. */
    MODERATE,
    /** Severe, from 2000 mL. */
    SEVERE;

    /**
     * First volume of each grade, mL, from the care protocol.
     *
     * @param compensatedFrom first volume of compensated shock
     * @param mildFrom first volume of mild shock
     * @param moderateFrom first volume of moderate shock
     * @param severeFrom first volume of severe shock
     */
    public record Bounds(
            BigDecimal compensatedFrom, BigDecimal mildFrom, BigDecimal moderateFrom, BigDecimal severeFrom) {}

    /**
     * The grade expected at a loss.
     *
     * @param lostMl unrounded cumulative blood loss, mL
     * @param bounds where the grades begin
     */
    public static ObstetricShockGrade of(BigDecimal lostMl, Bounds bounds) {
        if (lostMl.compareTo(bounds.severeFrom()) >= 0) {
            return SEVERE;
        }
        if (lostMl.compareTo(bounds.moderateFrom()) >= 0) {
            return MODERATE;
        }
        if (lostMl.compareTo(bounds.mildFrom()) >= 0) {
            return MILD;
        }
        return lostMl.compareTo(bounds.compensatedFrom()) >= 0 ? COMPENSATED : NONE;
    }
}
