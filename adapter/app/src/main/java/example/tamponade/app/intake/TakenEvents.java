package example.tamponade.app.intake;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;

/** The events taken from the input so far, each once, by what they are filed under. */
public final class TakenEvents {

    private final Map<UUID, Intake.Taken> byId = new HashMap<>();
    private final Map<String, List<Intake.Taken>> byCase = new TreeMap<>();
    private long repeated;

    /** Adds an event; false when another event has its id already. */
    public boolean add(Intake.Taken taken) {
        Intake.Taken before = byId.putIfAbsent(taken.event().eventId(), taken);
        if (before != null) {
            boolean same = before.event().equals(taken.event());
            repeated += same ? 1 : 0;
            return same;
        }
        byCase.computeIfAbsent(CaseKey.of(taken.event()), key -> new ArrayList<>())
                .add(taken);
        return true;
    }

    /** How many events were taken. */
    public long taken() {
        return byId.size();
    }

    /** How many lines repeated an event already taken. */
    public long repeated() {
        return repeated;
    }

    /** The events by case or facility, in the order of their keys. */
    public Map<String, List<Intake.Taken>> byCase() {
        return byCase;
    }
}
