package example.tamponade.core.casefile;

import java.util.UUID;

/** What a fact was derived from. */
public sealed interface FactInput {

    /**
     * A reading of an event.
     *
     * @param event the event, by the id it was first recorded under
     * @param reading which of its readings
     */
    record OfEvent(UUID event, Reading reading) implements FactInput {}

    /**
     * Another derived fact; running totals chain by it.
     *
     * @param key which fact
     */
    record OfFact(FactKey key) implements FactInput {}
}
