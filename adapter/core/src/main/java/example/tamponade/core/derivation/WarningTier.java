package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.util.Collection;

/**
 * The tier that a warning reaches under a rule with two sets of signs: one sign of the upper set, or several of the lower
 * at once.
 *
 * <p>Source: one red or two yellow, Singh A et al., Eur J Obstet Gynecol Reprod Biol 2016;207:11-17; one severe or two
 * non-severe, Shields LE et al., Am J Obstet Gynecol 2016.
 */
public enum WarningTier implements Coded {
    /** No warning. */
    NONE,
    /** Enough signs of the lower set. */
    YELLOW,
    /** A sign of the upper set. */
    RED;

    /**
     * How the signs of the lower set are counted; from the care protocol.
     *
     * @param yellowNeeded how many are needed at once
     * @param pressureCountsOnce whether systolic and diastolic pressure together are one sign, as in Shields 2016, or two,
     *     as on a chart with a row for each
     */
    public record Counting(int yellowNeeded, boolean pressureCountsOnce) {}

    /**
     * The tier.
     *
     * @param red signs of the upper set that fired; where the set asks that a sign lasts, only those that lasted
     * @param yellow signs of the lower set that fired
     * @param counting how the lower set is counted
     */
    public static WarningTier of(Collection<FiredSign> red, Collection<FiredSign> yellow, Counting counting) {
        if (!red.isEmpty()) {
            return RED;
        }
        long signs = yellow.stream()
                .map(it -> counted(it.sign(), counting))
                .distinct()
                .count();
        return signs >= counting.yellowNeeded() ? YELLOW : NONE;
    }

    private static Sign counted(Sign sign, Counting counting) {
        return counting.pressureCountsOnce() && sign == Sign.DIASTOLIC ? Sign.SYSTOLIC : sign;
    }
}
