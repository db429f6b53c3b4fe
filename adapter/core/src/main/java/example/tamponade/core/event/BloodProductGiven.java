package example.tamponade.core.event;

import java.math.BigDecimal;

/**
 * A blood product was given.
 *
 * @param product which
 * @param units number of units (bags)
 * @param volumeMl volume given, mL
 */
public record BloodProductGiven(BloodProduct product, int units, BigDecimal volumeMl) implements BedsideEvent {}
