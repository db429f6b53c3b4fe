package example.tamponade.app.intake;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** The events taken from the input so far, each once, by what they are filed under. */
public final class TakenEvents {

    private final Map<UUID, Intake.Taken> byId = new HashMap<>();
    private final Map<String, CaseOpenings> openings = new HashMap<>();
    private final Map<String, List<Intake.Taken>> byCase = new TreeMap<>();
    private long repeated;

    /**
     * Adds an event unless another has its id already, its case was opened for another mother, or what it corrects is of
     * another case.
     *
     * @return the reason against it; null when there is none
     */
    public @Nullable Reason add(Intake.Taken taken) {
        String key = CaseKey.of(taken.event());
        CaseOpenings ofCase = openings.computeIfAbsent(key, it -> new CaseOpenings());
        Intake.Taken before = byId.get(taken.event().eventId());
        if (before != null) {
            boolean same = before.event().equals(taken.event());
            repeated += same ? 1 : 0;
            return same ? null : Reason.conflict(taken.event().eventId());
        }
        Intake.Taken named = byId.get(taken.event().target());
        if (named != null && !CaseKey.of(named.event()).equals(key)) {
            return Reason.anotherCase();
        }
        if (ofCase.areOfAnother(taken.event())) {
            return Reason.anotherMother();
        }
        ofCase.add(taken.event());
        byId.put(taken.event().eventId(), taken);
        byCase.computeIfAbsent(key, it -> new ArrayList<>()).add(taken);
        return null;
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
