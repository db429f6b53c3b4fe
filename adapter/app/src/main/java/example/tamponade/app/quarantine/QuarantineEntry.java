package example.tamponade.app.quarantine;

import example.tamponade.app.intake.InputFormat;
import example.tamponade.core.event.Coded;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.UUID;

/**
 * Something that was refused.
 *
 * @param id its id: the same piece has the same, however often it comes
 * @param receivedAt when it came first, ISO 8601 in UTC
 * @param format the code of the format it came in
 * @param place where it stood in the sender's input
 * @param state what became of it
 * @param length how many bytes it has
 * @param content what it came in, whole
 * @param steps its history, the refusal first
 */
public record QuarantineEntry(
        UUID id,
        String receivedAt,
        String format,
        String place,
        QuarantineState state,
        long length,
        KeptBytes content,
        List<QuarantineStep> steps) {

    static QuarantineEntry of(ResultSet row, int n) throws SQLException {
        return new QuarantineEntry(
                UUID.fromString(row.getString("id")),
                row.getString("received_at"),
                row.getString("format"),
                row.getString("place"),
                Coded.of(QuarantineState.class, row.getString("state")),
                row.getLong("length"),
                new KeptBytes(row.getString("encoding"), row.getString("content")),
                List.of());
    }

    QuarantineEntry with(List<QuarantineStep> history) {
        return new QuarantineEntry(id, receivedAt, format, place, state, length, content, history);
    }

    /** The format it came in. */
    public InputFormat inFormat() {
        return Coded.of(InputFormat.class, format);
    }
}
