package example.tamponade.core.casefile;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * The latest pulse and pressure, to pair them.
 *
 * @param pulse the latest pulse; absent before the first
 * @param pressure the latest systolic pressure or failed attempt; absent before the first
 */
record VitalsState(@Nullable Last pulse, @Nullable Last pressure) {

    static final VitalsState NONE = new VitalsState(null, null);

    /**
     * A reading that may find its partner.
     *
     * @param event the event it stands in
     * @param at when
     * @param value the value; absent when the pressure could not be heard or felt
     */
    record Last(UUID event, Instant at, @Nullable BigDecimal value) {}
}
