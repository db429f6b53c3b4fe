package example.tamponade.app.quarantine;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** An entry as it is told over HTTP and on the command line. */
public final class QuarantineJson {

    private QuarantineJson() {}

    /** The entry with the reasons that stand against it now, without what came. */
    public static Map<String, Object> inShort(QuarantineEntry entry) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("id", entry.id().toString());
        json.put("receivedAt", entry.receivedAt());
        json.put("state", entry.state().code());
        json.put("format", entry.format());
        json.put("place", entry.place());
        json.put("byteLength", entry.length());
        json.put("reasons", entry.reasons());
        return json;
    }

    /** The entry with what came and all its history. */
    public static Map<String, Object> whole(WholeEntry entry) {
        Map<String, Object> json = inShort(entry.entry());
        json.remove("reasons");
        put(json, entry.content());
        json.put("history", entry.steps().stream().map(QuarantineJson::step).toList());
        return json;
    }

    private static Map<String, Object> step(QuarantineStep step) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("at", step.at());
        json.put("who", step.who());
        json.put("what", step.what().code());
        if (!step.note().isEmpty()) {
            json.put("note", step.note());
        }
        if (!step.content().equals(KeptBytes.NONE)) {
            put(json, step.content());
        }
        List<Map<String, String>> reasons = step.reasons();
        if (!reasons.isEmpty()) {
            json.put("reasons", reasons);
        }
        return json;
    }

    private static void put(Map<String, Object> json, KeptBytes content) {
        json.put(content.encoding(), content.content());
    }
}
