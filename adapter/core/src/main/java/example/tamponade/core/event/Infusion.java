package example.tamponade.core.event;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * How an infusion runs from now on, until the line is recorded again: it was begun, its rate or its bag was changed, or it
 * was stopped.
 *
 * @param line number of the line into her, from 1
 * @param bag number of the bag on that line, from 1; a new bag has a new number
 * @param substance the medicine in the bag, or the fluid itself
 * @param name its name; needed when the substance is other
 * @param dose how much of the medicine the full bag holds, in the unit; absent for a fluid alone
 * @param unit UCUM unit of the dose, for example {@code [iU]}
 * @param bagVolumeMl volume of the full bag, mL
 * @param rateMlPerHour rate from now on, mL/h; zero when it was stopped
 */
public record Infusion(
        int line,
        int bag,
        Substance substance,
        @Nullable String name,
        @Nullable BigDecimal dose,
        @Nullable String unit,
        BigDecimal bagVolumeMl,
        BigDecimal rateMlPerHour)
        implements BedsideEvent {

    /** Whether it runs from now on. */
    public boolean runs() {
        return rateMlPerHour.signum() > 0;
    }
}
