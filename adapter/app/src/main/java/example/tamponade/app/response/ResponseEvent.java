package example.tamponade.app.response;

import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.StatedEvent;
import example.tamponade.fhir.terms.EventForm;
import java.util.List;

/**
 * An event as a response states it.
 *
 * @param stated what could be read
 * @param reasons what could not
 * @param place which event of the response, for example {@code event 2}
 * @param type the type that was chosen; empty when none was
 * @param form the form that was answered
 */
record ResponseEvent(StatedEvent stated, List<Reason> reasons, String place, String type, EventForm form) {

    /** The reason with the link of the item that it is about, where it names only the event. */
    Reason placed(Reason reason) {
        if (!place.equals(reason.place()) || reason.path().isEmpty()) {
            return reason;
        }
        String names = reason.path().substring(1).replaceAll("/\\d+", "").replace('/', '.');
        String link = names.startsWith("data.") ? type + names.substring("data".length()) : names;
        return form.item(link) == null ? reason : reason.at(place + ", " + link);
    }
}
