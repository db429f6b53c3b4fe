package example.tamponade.app.intake;

import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * Which properties can an event state, and what is written in each? Paths are JSON pointers without array indexes, for
 * example {@code /data/mother/identifiers/value}.
 */
public final class EventProperties {

    private EventProperties() {}

    /** The paths of all properties that hold a value, of every type of event. */
    public static SortedSet<String> paths() {
        SortedSet<String> paths = new TreeSet<>();
        collect("", EventSchema.ROOT, paths);
        for (JsonNode type : EventSchema.property(EventSchema.ROOT, "type").path("enum")) {
            collect("/data", EventSchema.data(type.stringValue()), paths);
        }
        paths.remove("/data");
        return paths;
    }

    /**
     * What is written in a property of an event of that type; text when there is no such property, as nothing is then
     * known of it.
     */
    public static ValueKind kind(String type, String path) {
        List<EventSchema.Step> steps = EventSchema.steps(type, path);
        return EventSchema.kind(steps.get(steps.size() - 1).schema());
    }

    /** The path of the list that holds the property's values in an event of that type; null when none does. */
    public static @Nullable String list(String type, String path) {
        StringBuilder list = new StringBuilder();
        for (EventSchema.Step step : EventSchema.steps(type, path)) {
            list.append('/').append(step.name());
            if (step.list()) {
                return list.toString();
            }
        }
        return null;
    }

    private static void collect(String path, JsonNode object, SortedSet<String> paths) {
        for (String name : object.path("properties").propertyNames()) {
            JsonNode property = EventSchema.property(object, name);
            JsonNode value = EventSchema.isList(property) ? EventSchema.items(property) : property;
            if (value.has("properties") && EventSchema.kind(value) != ValueKind.AMOUNT) {
                collect(path + "/" + name, value, paths);
            } else {
                paths.add(path + "/" + name);
            }
        }
    }
}
