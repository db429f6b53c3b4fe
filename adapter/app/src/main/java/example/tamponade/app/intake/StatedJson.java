package example.tamponade.app.intake;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** The JSON of a stated event, with the place in the input of each of its values and what was found against them. */
final class StatedJson {

    private final ObjectNode event = JsonNodeFactory.instance.objectNode();
    private final String type;
    private final String placeOfEvent;
    private final List<Reason> reasons = new ArrayList<>();
    private final Map<String, String> places = new LinkedHashMap<>();
    private final Map<String, Integer> timesStated = new HashMap<>();

    StatedJson(StatedEvent stated) {
        this.type = stated.text("/type");
        this.placeOfEvent = stated.place();
        if (!stated.states("/retracts")) {
            event.putObject("data");
        }
        stated.properties().forEach(this::put);
        stated.emptyLists().forEach(this::putEmptyList);
    }

    ObjectNode event() {
        return event;
    }

    List<Reason> reasons() {
        return reasons;
    }

    /** Whether a reason stands already against the value at that JSON pointer or what it is part of. */
    boolean refuses(String pointer) {
        return reasons.stream().anyMatch(it -> pointer.equals(it.path()) || pointer.startsWith(it.path() + "/"));
    }

    /**
     * The place in the input of the value at that JSON pointer, or of what it is part of: a reason against an amount's unit
     * stands below the amount. Else of its first part; what is missing stands nowhere, so the event is named.
     */
    String place(String pointer) {
        String above = pointer;
        while (!above.isEmpty()) {
            String place = places.get(above);
            if (place != null) {
                return place;
            }
            above = above.substring(0, above.lastIndexOf('/'));
        }
        return places.entrySet().stream()
                .filter(it -> !pointer.isEmpty() && it.getKey().startsWith(pointer + "/"))
                .map(Map.Entry::getValue)
                .findFirst()
                .orElse(placeOfEvent);
    }

    private void put(StatedEvent.Property property) {
        int nth = timesStated.merge(property.path(), 1, Integer::sum) - 1;
        List<EventSchema.Step> steps = EventSchema.steps(type, property.path());
        EventSchema.Step last = steps.get(steps.size() - 1);
        Parent parent = parent(steps, nth);
        String pointer = parent.pointer + "/" + last.name();
        if (parent.object == null) {
            statedOtherwise(parent.pointer, property.place());
        } else if (last.list()) {
            addToList(parent.object, pointer, last, property);
        } else if (parent.object.has(last.name())) {
            statedOtherwise(pointer, property.place());
        } else {
            parent.object.set(last.name(), value(last.schema(), pointer, property));
        }
    }

    private void addToList(ObjectNode parent, String pointer, EventSchema.Step list, StatedEvent.Property property) {
        JsonNode there = parent.has(list.name()) ? parent.get(list.name()) : parent.putArray(list.name());
        if (there instanceof ArrayNode elements) {
            elements.add(value(list.schema(), pointer + "/" + elements.size(), property));
        } else {
            statedOtherwise(pointer, property.place());
        }
    }

    private void putEmptyList(StatedEvent.Property list) {
        List<EventSchema.Step> steps = EventSchema.steps(type, list.path());
        Parent parent = parent(steps, 0);
        String name = steps.get(steps.size() - 1).name();
        String pointer = parent.pointer + "/" + name;
        if (parent.object == null || parent.object.has(name)) {
            statedOtherwise(pointer, list.place());
        } else {
            parent.object.putArray(name);
            places.put(pointer, list.place());
        }
    }

    /** The object that holds a property and the JSON pointer to it; no object when something else stands there. */
    private record Parent(@Nullable ObjectNode object, String pointer) {}

    private Parent parent(List<EventSchema.Step> steps, int nth) {
        Parent parent = new Parent(event, "");
        for (EventSchema.Step step : steps.subList(0, steps.size() - 1)) {
            if (parent.object == null) {
                return parent;
            }
            String pointer = parent.pointer + "/" + step.name();
            JsonNode there = parent.object.get(step.name());
            parent = step.list()
                    ? new Parent(
                            element(there == null ? parent.object.putArray(step.name()) : there, nth),
                            pointer + "/" + nth)
                    : new Parent(asObject(there == null ? parent.object.putObject(step.name()) : there), pointer);
        }
        return parent;
    }

    private static @Nullable ObjectNode element(JsonNode there, int nth) {
        if (there instanceof ArrayNode list) {
            while (list.size() <= nth) {
                list.addObject();
            }
            return asObject(list.get(nth));
        }
        return null;
    }

    private static @Nullable ObjectNode asObject(JsonNode node) {
        return node instanceof ObjectNode object ? object : null;
    }

    private JsonNode value(JsonNode schema, String pointer, StatedEvent.Property property) {
        places.put(pointer, property.place());
        StatedValue value = StatedValue.of(schema, property);
        if (value.refusal() != null) {
            Reason refusal = value.refusal();
            reasons.add(new Reason(refusal.code(), pointer, refusal.message(), refusal.remedy()).at(property.place()));
        }
        return value.node();
    }

    private void statedOtherwise(String pointer, String place) {
        reasons.add(new Reason(
                        ReasonCode.INVALID_VALUE,
                        pointer,
                        "it is stated more than once",
                        "state it once in each event, in one way")
                .at(place));
    }
}
