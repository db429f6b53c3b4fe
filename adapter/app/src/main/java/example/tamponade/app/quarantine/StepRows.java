package example.tamponade.app.quarantine;

import example.tamponade.core.event.Coded;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import tools.jackson.core.type.TypeReference;
import tools.jackson.databind.json.JsonMapper;

/** How the steps of a history stand in their table. */
final class StepRows {

    static final String INSERT = """
            insert into quarantine_step (quarantine_id, step, at, who, what, note, encoding, content, reasons)
            values (?, ?, ?, ?, ?, ?, ?, ?, ?) on conflict do nothing
            """;

    private static final JsonMapper MAPPER = JsonMapper.builder().build();
    private static final TypeReference<List<Map<String, String>>> REASONS = new TypeReference<>() {};

    private StepRows() {}

    static Object[] row(UUID entry, int number, QuarantineStep step) {
        return new Object[] {
            entry.toString(),
            number,
            step.at(),
            step.who(),
            step.what().code(),
            step.note(),
            step.content().encoding(),
            step.content().content(),
            MAPPER.writeValueAsString(step.reasons())
        };
    }

    static QuarantineStep step(ResultSet row) throws SQLException {
        return new QuarantineStep(
                row.getString("at"),
                row.getString("who"),
                Coded.of(QuarantineStep.What.class, row.getString("what")),
                row.getString("note"),
                new KeptBytes(row.getString("encoding"), row.getString("content")),
                reasons(row));
    }

    static List<Map<String, String>> reasons(ResultSet row) throws SQLException {
        return MAPPER.readValue(row.getString("reasons"), REASONS);
    }
}
