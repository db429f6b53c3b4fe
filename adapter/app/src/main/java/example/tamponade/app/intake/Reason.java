package example.tamponade.app.intake;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
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

    /** The most reasons that are told of one piece. */
    public static final int MOST = 100;

    /** These reasons; of more than {@link #MOST} only so many, and one that says how many more there are. */
    public static List<Reason> bounded(List<Reason> reasons) {
        if (reasons.size() <= MOST) {
            return List.copyOf(reasons);
        }
        List<Reason> first = new ArrayList<>(reasons.subList(0, MOST - 1));
        Reason next = reasons.get(MOST - 1);
        first.add(new Reason(
                next.code(),
                "",
                "there are " + (reasons.size() - first.size()) + " more reasons like these",
                "put right what is told here and send it again"));
        return List.copyOf(first);
    }

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

    /** The case was opened for another mother before. */
    public static Reason anotherMother() {
        return new Reason(
                ReasonCode.CONFLICT,
                "/data/mother",
                "the case was opened for another mother before: a number of hers, her name, date of birth or age differs",
                "give this mother a case number of her own; where the number is another facility's, say whose in"
                        + " caseFacility; to change what is recorded of the mother, correct the event that opened the case");
    }

    /** What the event corrects or withdraws is of another case. */
    public static Reason anotherCase() {
        return new Reason(
                ReasonCode.CONFLICT,
                "/caseId",
                "the event that it corrects or withdraws is of another case",
                "send it with the case of that event; to move what was recorded to this case, withdraw it there and send it"
                        + " here under an id of its own");
    }

    /** Whoever sends it may not send for that facility. */
    public static Reason ofAnotherFacility(String facilityId) {
        return new Reason(
                ReasonCode.NOT_PERMITTED,
                "/facilityId",
                "whoever sends it may not send events of the facility " + facilityId,
                "send it with a token whose claim facilities names it, or name the facility where it was recorded");
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
