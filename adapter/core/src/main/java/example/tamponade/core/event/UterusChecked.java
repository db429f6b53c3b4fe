package example.tamponade.core.event;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * The uterus was felt.
 *
 * @param tone how it feels
 * @param fundusCm height of the fundus relative to the umbilicus, cm, above is positive
 */
public record UterusChecked(UterineTone tone, @Nullable BigDecimal fundusCm) implements BedsideEvent {}
