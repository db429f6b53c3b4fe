package example.tamponade.app.intake;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * Makes an event of what a format stated: the published schema tells which property is a number, a yes or no, a list. The
 * event is then read like any other, and every reason against it names its place in the input.
 */
public final class EventAssembly {

    private static final Set<String> YES = Set.of("true", "yes", "y");
    private static final Set<String> NO = Set.of("false", "no", "n");

    private final EventReader reader;

    /** Has the events read by that reader. */
    public EventAssembly(EventReader reader) {
        this.reader = reader;
    }

    /**
     * Makes the event and reads it.
     *
     * @param stated what the format found
     * @param original the bytes that it came in
     */
    public Intake read(StatedEvent stated, byte[] original) {
        ObjectNode event = JsonNodeFactory.instance.objectNode();
        List<Reason> reasons = new ArrayList<>();
        String type = stated.properties().stream()
                .filter(it -> it.path().equals("/type"))
                .map(StatedEvent.Property::text)
                .findFirst()
                .orElse("");
        if (!stated.states("/retracts")) {
            event.putObject("data");
        }
        Map<String, Integer> told = new LinkedHashMap<>();
        Map<String, String> places = new LinkedHashMap<>();
        for (StatedEvent.Property property : stated.properties()) {
            int nth = told.merge(property.path(), 1, Integer::sum) - 1;
            put(event, type, property, nth, places, reasons);
        }
        Intake read = reader.read(event, original);
        if (read instanceof Intake.Refused refused) {
            refused.reasons().stream()
                    .filter(it -> reasons.stream().noneMatch(own -> it.path().startsWith(own.path())))
                    .map(it -> it.at(place(it.path(), places, stated.place())))
                    .forEach(reasons::add);
        }
        return reasons.isEmpty() ? read : new Intake.Refused(reasons);
    }

    private static void put(
            ObjectNode event,
            String type,
            StatedEvent.Property property,
            int nth,
            Map<String, String> places,
            List<Reason> reasons) {
        String[] names = property.path().substring(1).split("/", -1);
        JsonNode schema = EventSchema.ROOT;
        ObjectNode object = event;
        StringBuilder pointer = new StringBuilder();
        for (int i = 0; i < names.length; i++) {
            schema = property.path().startsWith("/data/") && i == 0
                    ? EventSchema.data(type)
                    : EventSchema.property(schema, names[i]);
            pointer.append('/').append(names[i]);
            boolean last = i == names.length - 1;
            boolean list = EventSchema.isList(schema);
            if (list) {
                schema = EventSchema.items(schema);
                pointer.append('/').append(nth);
            }
            if (!last) {
                object = list ? element(object.withArray("/" + names[i]), nth) : object.withObject("/" + names[i]);
                continue;
            }
            JsonNode value = value(schema, property, pointer.toString(), reasons);
            places.put(pointer.toString(), property.place());
            if (list) {
                object.withArray("/" + names[i]).add(value);
            } else if (nth == 0) {
                object.set(names[i], value);
            } else {
                reasons.add(new Reason(
                                ReasonCode.INVALID_VALUE,
                                pointer.toString(),
                                "it is stated more than once",
                                "state it once in each event")
                        .at(property.place()));
            }
        }
    }

    private static ObjectNode element(ArrayNode list, int nth) {
        while (list.size() <= nth) {
            list.addObject();
        }
        return (ObjectNode) list.get(nth);
    }

    private static JsonNode value(
            JsonNode schema, StatedEvent.Property property, String pointer, List<Reason> reasons) {
        String text = property.text().strip();
        return switch (EventSchema.kind(schema)) {
            case AMOUNT -> amount(property, number(text, property, pointer, reasons));
            case NUMBER -> number(text, property, pointer, reasons);
            case YES_OR_NO -> yesOrNo(text, property, pointer, reasons);
            case TEXT -> JsonNodeFactory.instance.stringNode(text);
        };
    }

    private static JsonNode amount(StatedEvent.Property property, JsonNode number) {
        if (property.unit() == null) {
            return number;
        }
        ObjectNode amount = JsonNodeFactory.instance.objectNode().put("unit", property.unit());
        amount.set("value", number);
        return amount;
    }

    private static JsonNode number(String text, StatedEvent.Property property, String pointer, List<Reason> reasons) {
        try {
            return JsonNodeFactory.instance.numberNode(new BigDecimal(text));
        } catch (NumberFormatException e) {
            reasons.add(new Reason(
                            ReasonCode.WRONG_TYPE,
                            pointer,
                            "'" + shortened(text) + "' is not a number",
                            "write the number alone, for example 350 or 37.5")
                    .at(property.place()));
            return JsonNodeFactory.instance.stringNode(text);
        }
    }

    private static JsonNode yesOrNo(String text, StatedEvent.Property property, String pointer, List<Reason> reasons) {
        String lower = text.toLowerCase(Locale.ROOT);
        if (!YES.contains(lower) && !NO.contains(lower)) {
            reasons.add(new Reason(
                            ReasonCode.WRONG_TYPE,
                            pointer,
                            "'" + shortened(text) + "' is neither yes nor no",
                            "write yes or no, or true or false")
                    .at(property.place()));
        }
        return JsonNodeFactory.instance.booleanNode(YES.contains(lower));
    }

    private static String shortened(String text) {
        return text.length() > 60 ? text.substring(0, 60) + "…" : text;
    }

    // A reason against an amount's unit stands below the amount; what is missing stands nowhere, so the event is named.
    private static String place(String path, Map<String, String> places, String ofEvent) {
        String above = path;
        while (!above.isEmpty()) {
            String place = places.get(above);
            if (place != null) {
                return place;
            }
            above = above.substring(0, above.lastIndexOf('/'));
        }
        return ofEvent;
    }
}
