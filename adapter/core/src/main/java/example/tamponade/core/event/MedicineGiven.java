package example.tamponade.core.event;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * A medicine or fluid was given.
 *
 * @param substance what
 * @param name its name; needed when the substance is other
 * @param dose how much, in the unit
 * @param unit UCUM unit of the dose, for example {@code [iU]}, {@code ug}, {@code mL}
 * @param route by which way
 */
public record MedicineGiven(Substance substance, @Nullable String name, BigDecimal dose, String unit, Route route)
        implements BedsideEvent {}
