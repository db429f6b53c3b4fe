package example.tamponade.core.casefile;

import java.math.BigDecimal;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Laboratory results that later ones are read with.
 *
 * @param firstHaemoglobin the first haemoglobin of the case, g/L; absent before it
 * @param lactate the latest lactate, mmol/L; absent before the first
 */
record LaboratoryState(
        @Nullable Result firstHaemoglobin, @Nullable Result lactate) {

    static final LaboratoryState NONE = new LaboratoryState(null, null);

    /**
     * A result.
     *
     * @param event the event it stands in
     * @param value in the unit of the protocol
     */
    record Result(UUID event, BigDecimal value) {}
}
