package example.tamponade.core.protocol;

import java.math.BigDecimal;

/**
 * The bands of a quantity; each begins at its own value and ends where the next begins.
 *
 * @param raisedFrom first value of the raised band
 * @param highFrom first value of the high band
 * @param criticalFrom first value of the top band
 * @param unit UCUM unit of all three
 * @param source where the bands come from
 */
public record Bands(BigDecimal raisedFrom, BigDecimal highFrom, BigDecimal criticalFrom, String unit, String source) {

    /** The band of an unrounded value. */
    public Band of(BigDecimal value) {
        if (value.compareTo(criticalFrom) >= 0) {
            return Band.CRITICAL;
        }
        if (value.compareTo(highFrom) >= 0) {
            return Band.HIGH;
        }
        return value.compareTo(raisedFrom) >= 0 ? Band.RAISED : Band.NORMAL;
    }
}
