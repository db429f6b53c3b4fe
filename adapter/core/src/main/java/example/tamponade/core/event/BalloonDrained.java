package example.tamponade.core.event;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * Fluid was let out of a chamber of the device in place.
 *
 * @param chamber which chamber
 * @param volumeMl volume let out, mL
 * @param fluid of what
 */
public record BalloonDrained(
        Chamber chamber, BigDecimal volumeMl, @Nullable FillFluid fluid) implements BedsideEvent {}
