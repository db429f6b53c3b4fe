package example.tamponade.app.intake;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * An event as a format states it: property by property, as text, each with its place in the input. {@link EventAssembly}
 * makes the event of it.
 */
public final class StatedEvent {

    private final String place;
    private final List<Property> properties = new ArrayList<>();
    private final List<Property> emptyLists = new ArrayList<>();

    /** An event that states nothing yet and stands at that place of the input, for example {@code row 7}. */
    public StatedEvent(String place) {
        this.place = place;
    }

    /**
     * A property that was stated.
     *
     * @param path where in the event, as a JSON pointer without array indexes, for example {@code /data/volumeMl}
     * @param text the value as text: a number with a decimal point, {@code true} or {@code false}, a code, a time
     * @param unit the UCUM unit that came with the value; null when none did
     * @param refusal why the format itself could not read the text; null when it could
     * @param place where in the input, for example {@code row 7, column volumeMl}
     */
    record Property(
            String path,
            String text,
            @Nullable String unit,
            @Nullable Reason refusal,
            String place) {}

    /**
     * States a property. In a list each call adds an element; of a list of objects the nth call for a property belongs to
     * the nth object.
     *
     * @param path where in the event, as a JSON pointer without array indexes, for example {@code /data/babies/outcome}
     */
    public StatedEvent with(String path, String text, @Nullable String unit, String place) {
        properties.add(new Property(path, text, unit, null, place));
        return this;
    }

    /** States a property without a unit. */
    public StatedEvent with(String path, String text, String place) {
        return with(path, text, null, place);
    }

    /**
     * States a property whose text the format could not read. The event will be refused, for this and every other reason.
     *
     * @param refusal why; its path and place are set from here
     */
    public StatedEvent withUnreadable(String path, String text, Reason refusal, String place) {
        properties.add(new Property(path, text, null, refusal, place));
        return this;
    }

    /** States a list that is there and holds nothing, for example that no cause is suspected. */
    public StatedEvent withEmptyList(String path, String place) {
        emptyLists.add(new Property(path, "", null, null, place));
        return this;
    }

    /** Whether that property was stated. */
    public boolean states(String path) {
        return properties.stream().anyMatch(it -> it.path().equals(path));
    }

    /** The text of that property as it was first stated; empty when it was not. */
    String text(String path) {
        return properties.stream()
                .filter(it -> it.path().equals(path))
                .map(Property::text)
                .findFirst()
                .orElse("");
    }

    String place() {
        return place;
    }

    List<Property> properties() {
        return properties;
    }

    List<Property> emptyLists() {
        return emptyLists;
    }
}
