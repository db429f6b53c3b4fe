package example.tamponade.app.quarantine;

import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Reason;
import java.time.Instant;
import java.util.List;

/**
 * Something to keep in quarantine.
 *
 * @param piece what was refused
 * @param reasons every reason
 * @param receivedAt when it came
 */
public record Refusal(Piece piece, List<Reason> reasons, Instant receivedAt) {}
