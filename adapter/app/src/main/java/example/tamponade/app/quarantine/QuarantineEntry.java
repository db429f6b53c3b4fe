package example.tamponade.app.quarantine;

import example.tamponade.app.intake.InputFormat;
import example.tamponade.core.event.Coded;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.Map;
import java.util.UUID;

/**
 * Something that was refused, as it is listed.
 *
 * @param id its id: the same piece has the same, however often it comes
 * @param receivedAt when it came first, ISO 8601 in UTC
 * @param format the code of the format it came in
 * @param place where it stood in the sender's input
 * @param state what became of it
 * @param length how many bytes it has
 * @param reasons why, each as {@code Reason.inJson}
 */
public record QuarantineEntry(
        UUID id,
        String receivedAt,
        String format,
        String place,
        QuarantineState state,
        long length,
        List<Map<String, String>> reasons) {

    static QuarantineEntry of(ResultSet row, int n) throws SQLException {
        return new QuarantineEntry(
                UUID.fromString(row.getString("id")),
                row.getString("received_at"),
                row.getString("format"),
                row.getString("place"),
                Coded.of(QuarantineState.class, row.getString("state")),
                row.getLong("length"),
                StepRows.reasons(row));
    }

    /** The format it came in. */
    public InputFormat inFormat() {
        return Coded.of(InputFormat.class, format);
    }
}
