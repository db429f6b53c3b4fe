package example.tamponade.app.intake;

import java.util.ArrayList;
import java.util.List;

/**
 * Makes an event of what a format stated: the published schema tells which property is a number, a yes or no, a list. The
 * event is then read like any other, and every reason against it names its place in the input.
 */
public final class EventAssembly {

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
    public Intake read(StatedEvent stated, Original original) {
        StatedJson json = new StatedJson(stated);
        Intake read = reader.read(json.event(), original);
        List<Reason> reasons = new ArrayList<>(json.reasons());
        if (read instanceof Intake.Refused refused) {
            refused.reasons().stream()
                    .filter(it -> !json.refuses(it.path()))
                    .map(it -> it.at(json.place(it.path())))
                    .forEach(reasons::add);
        }
        return reasons.isEmpty() ? read : new Intake.Refused(reasons);
    }
}
