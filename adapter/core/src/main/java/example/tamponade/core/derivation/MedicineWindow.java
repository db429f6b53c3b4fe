package example.tamponade.core.derivation;

import java.time.Duration;
import java.time.Instant;

/**
 * The time after birth in which a medicine should be given. The end belongs to the window: a dose exactly 3 h after birth
 * is inside 3 h.
 *
 * <p>Source: WHO recommendation on tranexamic acid for the treatment of postpartum haemorrhage, 2017, ISBN
 * 978-92-4-155015-4 (3 h).
 */
public final class MedicineWindow {

    private MedicineWindow() {}

    /**
     * Whether a dose was inside the window.
     *
     * @param birth time of birth
     * @param given when the dose was given; before birth is not inside
     * @param window length of the window, from the care protocol
     */
    public static boolean holds(Instant birth, Instant given, Duration window) {
        return !given.isBefore(birth) && !given.isAfter(birth.plus(window));
    }

    /**
     * What is left of the window, min, shown without decimals; 0 once it has closed.
     *
     * @param birth time of birth
     * @param now up to when
     * @param window length of the window, from the care protocol
     */
    public static FactValue.Amount left(Instant birth, Instant now, Duration window) {
        Duration left = Duration.between(now, birth.plus(window));
        return Interval.minutes(left.isNegative() ? Duration.ZERO : left);
    }
}
