package example.tamponade.app.observation;

import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.intake.StatedEvent;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What was found in the observations of one event: what they state, and what is wrong with them. */
final class Found {

    final StatedEvent stated;
    final List<Reason> reasons = new ArrayList<>();

    Found(String place) {
        this.stated = new StatedEvent(place);
    }

    void state(String path, String text, @Nullable String unit, String place) {
        stated.with(path, text, unit, place);
    }

    void refuse(ReasonCode code, String path, String place, String message, String remedy) {
        reasons.add(new Reason(code, path, message, remedy).at(place));
    }
}
