package example.tamponade.app.quarantine;

import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.ReasonCode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Which entries to list, the oldest first.
 *
 * @param state only those in this state; null for any
 * @param format only those that came in this format; null for any
 * @param reason only those refused for this reason, maybe among others; null for any
 * @param mentions only those whose text has these words, for example a case id; null for any
 * @param after only those behind this entry; null from the beginning
 * @param limit how many at most
 */
public record QuarantineFilter(
        @Nullable QuarantineState state,
        @Nullable InputFormat format,
        @Nullable ReasonCode reason,
        @Nullable String mentions,
        @Nullable UUID after,
        int limit) {

    /** The condition in SQL on the entry {@code q}; puts the values that it names into the map. */
    String where(Map<String, Object> values) {
        List<String> conditions = new ArrayList<>(List.of("1 = 1"));
        if (state != null) {
            conditions.add("q.state = :state");
            values.put("state", state.code());
        }
        if (format != null) {
            conditions.add("q.format = :format");
            values.put("format", format.code());
        }
        if (reason != null) {
            conditions.add("exists (select 1 from quarantine_step s"
                    + " where s.quarantine_id = q.id and s.reasons like :reason)");
            values.put("reason", "%\"code\":\"" + reason.code() + "\"%");
        }
        if (mentions != null) {
            conditions.add("o.content like :mentions escape '!'");
            values.put("mentions", "%" + mentions.replaceAll("([!%_])", "!$1") + "%");
        }
        if (after != null) {
            conditions.add(
                    "(q.received_at, q.id) > (select a.received_at, a.id from quarantine a where a.id = :after)");
            values.put("after", after.toString());
        }
        return String.join(" and ", conditions);
    }
}
