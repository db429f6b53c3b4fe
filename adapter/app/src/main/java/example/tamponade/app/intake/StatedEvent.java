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
     * @param place where in the input, for example {@code row 7, column volumeMl}
     */
    record Property(String path, String text, @Nullable String unit, String place) {}

    /**
     * States a property. In a list each call adds an element; of a list of objects the nth call for a property belongs to
     * the nth object.
     *
     * @param path where in the event, as a JSON pointer without array indexes, for example {@code /data/babies/outcome}
     */
    public StatedEvent with(String path, String text, @Nullable String unit, String place) {
        properties.add(new Property(path, text, unit, place));
        return this;
    }

    /** States a property without a unit. */
    public StatedEvent with(String path, String text, String place) {
        return with(path, text, null, place);
    }

    /** Whether that property was stated. */
    public boolean states(String path) {
        return properties.stream().anyMatch(it -> it.path().equals(path));
    }

    String place() {
        return place;
    }

    List<Property> properties() {
        return properties;
    }
}
