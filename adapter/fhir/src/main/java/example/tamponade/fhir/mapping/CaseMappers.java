package example.tamponade.fhir.mapping;

import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.Outcome;
import example.tamponade.core.event.Referral;
import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.event.TamponadePrepared;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** What a case has once, whatever its events: the mother, her stay, the case itself and all whose state goes on. */
final class CaseMappers {

    static final String MOTHER = "mother";

    private CaseMappers() {}

    /** Everything whose state changes as the case goes on; empty for a case without events. */
    static List<Resource> map(CaseScope scope) {
        List<Resource> resources = new ArrayList<>(parties(scope));
        resources.addAll(HaemorrhageMapper.map(scope));
        resources.addAll(SurroundingsMapper.map(scope));
        for (Recorded event : scope.standing()) {
            BedsideEvent data = event.data();
            if (data instanceof TamponadePrepared || data instanceof TamponadeInserted || data instanceof Referral) {
                resources.addAll(EventMappers.map(event));
            }
        }
        return resources;
    }

    /** The mother, her stay and the case; there even when no event opened the case. */
    static List<Resource> parties(CaseScope scope) {
        Recorded from = first(scope);
        if (from == null) {
            return List.of();
        }
        CaseOpened opened = opened(from);
        return List.of(MotherMapper.map(opened, from), StayMapper.own(opened, from), EpisodeMapper.map(opened, from));
    }

    /** Her stay at the facility of the case, which has an event. */
    static Encounter ownStay(CaseScope scope) {
        Recorded from = Objects.requireNonNull(first(scope));
        return StayMapper.own(opened(from), from);
    }

    // The event that opened the case; otherwise the first.
    private static @Nullable Recorded first(CaseScope scope) {
        List<Recorded> events = scope.standingOrElseWithdrawn();
        UUID opening = scope.file.opening();
        return events.stream()
                .filter(it -> it.root.equals(opening))
                .findFirst()
                .orElse(events.isEmpty() ? null : events.get(0));
    }

    private static @Nullable CaseOpened opened(Recorded from) {
        return from.data() instanceof CaseOpened it ? it : null;
    }

    /** The last outcome that stands; null while there is none. */
    static @Nullable Recorded lastOutcome(CaseScope scope) {
        return scope.standing().stream()
                .filter(it -> it.data() instanceof Outcome)
                .reduce((one, other) -> other)
                .orElse(null);
    }
}
