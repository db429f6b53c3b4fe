package example.tamponade.app.response;

import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A response with one of its event groups. The group keeps its number as its element id, so that it is the same event when
 * it is read again.
 */
record Single(ObjectNode root, String place) {

    static final String EVENT = "event";

    static final Reason NO_EVENT = new Reason(
            ReasonCode.EMPTY_INPUT,
            "",
            "the response holds no event",
            "answer the group 'event' once for each thing that happened");

    static final Reason TOO_LONG = new Reason(
            ReasonCode.TOO_LONG,
            "",
            "what stands beside the groups 'event' is kept with each of them, which would be more than "
                    + EventReader.MAX_BYTES + " bytes",
            "leave out items that the form does not have, or send fewer events in one response");

    /** Whether its events, each with what stands beside them, are longer than an event may be all together. */
    static boolean isTooLong(ObjectNode response) {
        long events = 0;
        long beside = response.toString().length();
        for (JsonNode item : response.path("item")) {
            if (isEvent(item)) {
                events++;
                beside -= item.toString().length();
            }
        }
        return events * beside > EventReader.MAX_BYTES;
    }

    private static boolean isEvent(JsonNode item) {
        return item instanceof ObjectNode group
                && group.path("linkId").asString("").equals(EVENT);
    }

    /** The response taken apart; empty when it has no event group. */
    static List<Single> of(ObjectNode response, String place) {
        List<Single> singles = new ArrayList<>();
        List<JsonNode> header = new ArrayList<>();
        List<ObjectNode> events = new ArrayList<>();
        for (JsonNode item : response.path("item")) {
            if (isEvent(item)) {
                events.add((ObjectNode) item);
            } else {
                header.add(item);
            }
        }
        for (int i = 0; i < events.size(); i++) {
            ObjectNode event = events.get(i);
            String number = event.path("id").asString(String.valueOf(i + 1));
            if (!event.has("id")) {
                event.put("id", number);
            }
            ObjectNode single = response.objectNode();
            response.properties().forEach(it -> single.set(it.getKey(), it.getValue()));
            ArrayNode items = response.arrayNode().addAll(header).add(event);
            single.set("item", items);
            singles.add(new Single(single, place + ", event " + number));
        }
        return singles;
    }
}
