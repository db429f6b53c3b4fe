package example.tamponade.core.casefile;

import example.tamponade.core.derivation.UrineCollection;
import java.time.OffsetDateTime;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.pcollections.PVector;
import org.pcollections.TreePVector;

/**
 * Urine so far.
 *
 * @param recent the collections that reach into the rolling window, in order
 * @param lowSince begin of the first of the latest collections whose rate was low; absent when the latest was not
 * @param lowPerKgSince the same for the rate by body weight
 */
record UrineState(
        PVector<Collection> recent,
        @Nullable OffsetDateTime lowSince,
        @Nullable OffsetDateTime lowPerKgSince) {

    static final UrineState NONE = new UrineState(TreePVector.empty(), null, null);

    /**
     * One collection.
     *
     * @param event the event it stands in
     * @param urine the urine and its time
     */
    record Collection(UUID event, UrineCollection urine) {}
}
