package example.tamponade.app.intake;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.UUID;

/**
 * One reason why an event was refused.
 *
 * @param code which kind of reason
 * @param path where, as a JSON pointer into the event; empty for the event as a whole
 * @param message what is wrong
 * @param remedy what the sender can do
 */
public record Reason(ReasonCode code, String path, String message, String remedy) {

    /** Another event with that id was accepted before. */
    public static Reason conflict(UUID eventId) {
        return new Reason(
                ReasonCode.CONFLICT,
                "/eventId",
                "another event with the id " + eventId + " was accepted before",
                "give the event an id of its own; to change the earlier one send an event that corrects it");
    }

    /** The reason as it is written in JSON, in this order: code, path, message, remedy. */
    public Map<String, String> inJson() {
        Map<String, String> properties = new LinkedHashMap<>();
        properties.put("code", code.code());
        properties.put("path", path);
        properties.put("message", message);
        properties.put("remedy", remedy);
        return properties;
    }
}
