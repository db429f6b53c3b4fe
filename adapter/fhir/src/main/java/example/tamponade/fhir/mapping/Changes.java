package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.CaseFact;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.Flag;
import example.tamponade.core.casefile.RecordIssue;
import example.tamponade.core.casefile.Withdrawn;
import example.tamponade.core.event.EventEnvelope;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;

/**
 * What is to be mapped of a case or of a facility's own events.
 *
 * @param ofFacility whether the events are a facility's own and belong to no case
 * @param entries events whose resources and provenance are
 * @param facts facts that are, with the event that each hangs on
 * @param withdrawn withdrawn events that are
 * @param received every event, when some of them were corrected or retracted; otherwise none
 */
public record Changes(
        boolean ofFacility,
        Collection<CaseEntry> entries,
        Collection<CaseFact> facts,
        Collection<Withdrawn> withdrawn,
        Collection<EventEnvelope> received) {

    /** Everything of a case. */
    public static Changes everything(CaseFile file, Collection<EventEnvelope> received) {
        return new Changes(false, file.entries(), file.facts(), file.withdrawn(), received);
    }

    /** Everything of a facility's own events; what a case alone can warn of is left out. */
    public static Changes everythingOfFacility(CaseFile file) {
        List<CaseFact> facts =
                file.facts().stream().filter(Changes::tellsOfFacility).toList();
        return new Changes(true, file.entries(), facts, file.withdrawn(), List.of());
    }

    /** Whether a fact of a facility's own events is told; what a case alone can warn of is not. */
    public static boolean tellsOfFacility(CaseFact fact) {
        return fact instanceof DerivedValue
                || fact instanceof RecordIssue
                || fact instanceof Flag flag && flag.kind().isOfFacility();
    }

    Map<UUID, List<CaseFact>> factsByEvent() {
        Map<UUID, List<CaseFact>> byEvent = new LinkedHashMap<>();
        facts.forEach(it -> byEvent.computeIfAbsent(it.key().anchor(), anchor -> new ArrayList<>())
                .add(it));
        return byEvent;
    }
}
