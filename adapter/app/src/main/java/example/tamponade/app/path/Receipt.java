package example.tamponade.app.path;

import example.tamponade.app.intake.Reason;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** What the sender of a piece is told. */
public sealed interface Receipt {

    /**
     * The event is on disk.
     *
     * @param eventId its id
     * @param repeated whether it had been taken before, so that nothing changed
     */
    record Stored(UUID eventId, boolean repeated) implements Receipt {}

    /**
     * The piece was not taken; it is kept whole in quarantine, on disk.
     *
     * @param quarantineId its id there; null for a correction of what is there already
     * @param reasons every reason; at least one
     */
    record Refused(@Nullable UUID quarantineId, List<Reason> reasons) implements Receipt {

        public Refused {
            reasons = List.copyOf(reasons);
        }
    }
}
