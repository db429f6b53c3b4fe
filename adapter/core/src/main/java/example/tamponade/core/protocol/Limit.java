package example.tamponade.core.protocol;

import java.math.BigDecimal;

/**
 * The range in which a kind of value is possible, and the narrower one in which it is plausible. All four ends belong to
 * their range.
 *
 * @param measure the kind of value; its unit is the unit of the four ends
 * @param possibleFrom below this the value is refused
 * @param possibleTo above this the value is refused
 * @param plausibleFrom below this the value is accepted and marked
 * @param plausibleTo above this the value is accepted and marked
 * @param source where the range comes from
 */
public record Limit(
        Measure measure,
        BigDecimal possibleFrom,
        BigDecimal possibleTo,
        BigDecimal plausibleFrom,
        BigDecimal plausibleTo,
        String source) {

    /** Whether the value can be at all. */
    public boolean possible(BigDecimal value) {
        return within(value, possibleFrom, possibleTo);
    }

    /** Whether the value is one that is seen at bedsides. */
    public boolean plausible(BigDecimal value) {
        return within(value, plausibleFrom, plausibleTo);
    }

    private static boolean within(BigDecimal value, BigDecimal from, BigDecimal to) {
        return value.compareTo(from) >= 0 && value.compareTo(to) <= 0;
    }
}
