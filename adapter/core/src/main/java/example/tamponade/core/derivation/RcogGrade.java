package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.math.BigDecimal;

/**
 * Grade of a postpartum haemorrhage by the volume lost.
 *
 * <p>Minor begins with its bound; minor and moderate include their upper bound: exactly 1000 mL is minor, exactly 2000 mL
 * is moderate.
 *
 * <p>Source: RCOG Green-top Guideline 52, 2009, revised 2011.
 */
public enum RcogGrade implements Coded {
    /** No haemorrhage yet. */
    NONE,
    /** 500 to 1000 mL. */
    MINOR,
    /** Major, above 1000 up to 2000 mL. */
    MAJOR_MODERATE,
    /** Major, above 2000 mL. */
    MAJOR_SEVERE;

    /**
     * The bounds, mL, from the care protocol.
     *
     * @param minorFrom first volume that is minor
     * @param minorTo last volume that is minor
     * @param moderateTo last volume that is moderate
     */
    public record Bounds(BigDecimal minorFrom, BigDecimal minorTo, BigDecimal moderateTo) {}

    /**
     * The grade of a loss.
     *
     * @param lostMl unrounded cumulative blood loss, mL
     * @param bounds where the grades begin and end
     */
    public static RcogGrade of(BigDecimal lostMl, Bounds bounds) {
        if (lostMl.compareTo(bounds.minorFrom()) < 0) {
            return NONE;
        }
        if (lostMl.compareTo(bounds.minorTo()) <= 0) {
            return MINOR;
        }
        return lostMl.compareTo(bounds.moderateTo()) <= 0 ? MAJOR_MODERATE : MAJOR_SEVERE;
    }
}
