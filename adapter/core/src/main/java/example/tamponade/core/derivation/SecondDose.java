package example.tamponade.core.derivation;

import java.time.Duration;
import java.time.Instant;

/**
 * When a second dose of an antifibrinolytic may be given: from a wait after the first until a longer time after it. Both
 * count from the same time of the first dose, its begin or its end: sources differ.
 *
 * <p>Source: WOMAN trial collaborators, Lancet 2017, PMC5446563 (bleeding that continues after 30 min, or restarts within
 * 24 h of the first dose).
 */
public final class SecondDose {

    private SecondDose() {}

    /**
     * The time in which it may be given; both ends belong to it.
     *
     * @param earliest not before this
     * @param latest not after this
     */
    public record Window(Instant earliest, Instant latest) {}

    /**
     * The window of the second dose.
     *
     * @param firstDose begin or end of the first dose
     * @param notBefore wait after it, from the care protocol
     * @param within time after it in which bleeding that restarts calls for a second, from the care protocol
     */
    public static Window after(Instant firstDose, Duration notBefore, Duration within) {
        return new Window(firstDose.plus(notBefore), firstDose.plus(within));
    }
}
