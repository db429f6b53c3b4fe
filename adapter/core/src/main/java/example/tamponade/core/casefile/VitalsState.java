package example.tamponade.core.casefile;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * The latest vital signs, to pair them and to compare with.
 *
 * @param pulse the latest pulse; absent before the first
 * @param pressure the latest systolic pressure or failed attempt; absent before the first
 * @param firstIndex the first shock index after birth; absent before it
 * @param lastIndex the latest shock index; absent before the first
 * @param indexBefore the latest shock index of an earlier instant than that; absent before the second
 * @param abnormal the latest reading of an abnormal sign; absent when the latest of each sign was normal
 */
record VitalsState(
        @Nullable Last pulse,
        @Nullable Last pressure,
        @Nullable Index firstIndex,
        @Nullable Index lastIndex,
        @Nullable Index indexBefore,
        @Nullable FactInput abnormal) {

    static final VitalsState NONE = new VitalsState(null, null, null, null, null, null);

    /**
     * A reading that may find its partner.
     *
     * @param event the event it stands in
     * @param at when
     * @param value the value; absent when the pressure could not be heard or felt
     */
    record Last(UUID event, Instant at, @Nullable BigDecimal value) {}

    /**
     * A shock index.
     *
     * @param value unrounded
     * @param fact the fact that holds it
     */
    record Index(BigDecimal value, FactKey fact) {}

    VitalsState readings(@Nullable Last newPulse, @Nullable Last newPressure) {
        return new VitalsState(newPulse, newPressure, firstIndex, lastIndex, indexBefore, abnormal);
    }

    VitalsState indices(@Nullable Index first, Index last, @Nullable Index before) {
        return new VitalsState(pulse, pressure, first, last, before, abnormal);
    }

    VitalsState abnormal(@Nullable FactInput reading) {
        return new VitalsState(pulse, pressure, firstIndex, lastIndex, indexBefore, reading);
    }
}
