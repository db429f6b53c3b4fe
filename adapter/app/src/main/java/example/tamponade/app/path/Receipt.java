package example.tamponade.app.path;

import example.tamponade.app.intake.Reason;
import java.util.List;
import java.util.UUID;

/** What the sender of an event is told. */
public sealed interface Receipt {

    /**
     * The event is on disk and its resources are on record.
     *
     * @param eventId its id
     * @param repeated whether it had been taken before, so that nothing changed
     */
    record Stored(UUID eventId, boolean repeated) implements Receipt {}

    /**
     * The event was not taken.
     *
     * @param reasons every reason; at least one
     */
    record Refused(List<Reason> reasons) implements Receipt {

        public Refused {
            reasons = List.copyOf(reasons);
        }
    }
}
