package example.tamponade.core.casefile;

import example.tamponade.core.derivation.CoveredTime;
import example.tamponade.core.derivation.UrineCollection;
import java.time.OffsetDateTime;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.pcollections.PVector;
import org.pcollections.TreePVector;

/**
 * Urine so far.
 *
 * @param recent what was collected in the rolling window, each time once, in order of the events
 * @param covered the time that the collections cover
 * @param lowSince begin of the first of the latest collections whose rate was low; absent when the latest was not
 * @param lowPerKgSince the same for the rate by body weight
 */
record UrineState(
        PVector<Collection> recent,
        CoveredTime covered,
        @Nullable OffsetDateTime lowSince,
        @Nullable OffsetDateTime lowPerKgSince) {

    static final UrineState NONE = new UrineState(TreePVector.empty(), CoveredTime.NONE, null, null);

    /**
     * One collection.
     *
     * @param event the event it stands in
     * @param urine the urine and its time
     */
    record Collection(UUID event, UrineCollection urine) {}
}
