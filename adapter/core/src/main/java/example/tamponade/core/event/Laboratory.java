package example.tamponade.core.event;

import java.math.BigDecimal;

/**
 * A bedside or laboratory result.
 *
 * @param analyte what was measured
 * @param value result, in the unit
 * @param unit UCUM unit of the result, for example {@code g/dL}
 */
public record Laboratory(Analyte analyte, BigDecimal value, String unit) implements BedsideEvent {}
