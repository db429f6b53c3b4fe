package example.tamponade.core.event;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * Fluid was put into a chamber of the device in place.
 *
 * @param chamber which chamber
 * @param volumeMl volume put in, mL
 * @param fluid with what
 */
public record BalloonFilled(
        Chamber chamber, BigDecimal volumeMl, @Nullable FillFluid fluid) implements BedsideEvent {}
