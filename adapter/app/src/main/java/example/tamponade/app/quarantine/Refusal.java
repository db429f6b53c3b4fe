package example.tamponade.app.quarantine;

import example.tamponade.app.intake.EventIds;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Reason;
import java.time.Instant;
import java.util.List;
import java.util.UUID;

/**
 * Something to keep in quarantine.
 *
 * @param piece what was refused
 * @param reasons every reason
 * @param receivedAt when it came
 */
public record Refusal(Piece piece, List<Reason> reasons, Instant receivedAt) {

    /** The entry's id: the same bytes in the same format are one entry, however often they come. */
    public UUID id() {
        return EventIds.of(piece.format(), "quarantine", Piece.digest(piece.original()), Long.toString(piece.length()));
    }
}
