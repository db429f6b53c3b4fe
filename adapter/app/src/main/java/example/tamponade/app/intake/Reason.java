package example.tamponade.app.intake;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * One reason why an event was refused.
 *
 * @param code which kind of reason
 * @param path where, as a JSON pointer into the event; empty for the event as a whole
 * @param message what is wrong
 * @param remedy what the sender can do
 * @param place where in the sender's own input, for example {@code row 7, column volumeMl}; null when the path tells it
 */
public record Reason(
        ReasonCode code,
        String path,
        String message,
        String remedy,
        @Nullable String place) {

    /** A reason whose path tells the place. */
    public Reason(ReasonCode code, String path, String message, String remedy) {
        this(code, path, message, remedy, null);
    }

    /** The reason with its place in the sender's own input. */
    public Reason at(String where) {
        return new Reason(code, path, message, remedy, where);
    }

    /** Another event with that id was accepted before. */
    public static Reason conflict(UUID eventId) {
        return new Reason(
                ReasonCode.CONFLICT,
                "/eventId",
                "another event with the id " + eventId + " was accepted before",
                "give the event an id of its own; to change the earlier one send an event that corrects it");
    }

    /** The reason as it is written in JSON, in this order: code, place, path, message, remedy. */
    public Map<String, String> inJson() {
        Map<String, String> properties = new LinkedHashMap<>();
        properties.put("code", code.code());
        if (place != null) {
            properties.put("place", place);
        }
        properties.put("path", path);
        properties.put("message", message);
        properties.put("remedy", remedy);
        return properties;
    }
}
