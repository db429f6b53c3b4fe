package example.tamponade.app.intake;

import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.Mother;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.UUID;

/** For which mother was a case opened? What stands of its openings, as far as its events have come. */
public final class CaseOpenings {

    private final Map<UUID, Mother> standing = new LinkedHashMap<>();
    private final Map<UUID, UUID> corrected = new HashMap<>();

    /** Takes in an event of the case; all but openings, their corrections and withdrawals are passed over. */
    public void add(EventEnvelope event) {
        if (event.retracts() != null) {
            standing.remove(root(event.retracts()));
        } else if (event.data() instanceof CaseOpened opened) {
            UUID root = event.corrects() == null ? event.eventId() : root(event.corrects());
            corrected.put(event.eventId(), root);
            standing.put(root, opened.mother());
        }
    }

    /** Whether an event opens the case for certainly another mother; one that corrects an opening does not. */
    public boolean areOfAnother(EventEnvelope event) {
        return event.corrects() == null
                && event.data() instanceof CaseOpened opened
                && standing.values().stream().anyMatch(opened.mother()::isAnotherThan);
    }

    private UUID root(UUID event) {
        return corrected.getOrDefault(event, event);
    }
}
