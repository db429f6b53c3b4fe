package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;

/**
 * Days since a facility's tamponade set was last checked = today - day of the check, d, whole calendar days.
 *
 * <p>Source: arithmetic.
 */
public final class DaysSinceCheck {

    private DaysSinceCheck() {}

    /**
     * The days between two dates.
     *
     * @param checked day of the last check, local to the facility
     * @param today the day it is asked, local to the facility; not before the check
     */
    public static FactValue.Amount of(LocalDate checked, LocalDate today) {
        return new FactValue.Amount(BigDecimal.valueOf(ChronoUnit.DAYS.between(checked, today)), "d", 0);
    }
}
