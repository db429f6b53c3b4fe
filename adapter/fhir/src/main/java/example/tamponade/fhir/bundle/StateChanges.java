package example.tamponade.fhir.bundle;

import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.hl7.fhir.r4.model.BaseDateTimeType;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.Task;

/** When a case changed its state: something was done to the mother, or a warning began or ended. */
final class StateChanges {

    private static final Set<String> DONE = Set.of(
            "birth",
            "postpartum-haemorrhage",
            "tamponade",
            "balloon-step",
            "balloon-volume-change",
            "tamponade-removal",
            "case-outcome");

    private StateChanges() {}

    static Set<Instant> of(List<Resource> resources) {
        Set<Instant> changes = new HashSet<>();
        for (Resource resource : resources) {
            if (Profiles.isEnteredInError(resource)) {
                continue;
            }
            if (DONE.contains(Profiles.of(resource))) {
                changes.add(Chronology.time(resource));
            } else if (resource instanceof Flag flag) {
                add(changes, flag.getPeriod().getStartElement());
                add(changes, flag.getPeriod().getEndElement());
            } else if (resource instanceof Task task) {
                task.getOutput().forEach(it -> add(changes, (BaseDateTimeType) it.getValue()));
            }
        }
        return changes;
    }

    private static void add(Set<Instant> changes, BaseDateTimeType time) {
        if (time.getValue() != null) {
            changes.add(time.getValue().toInstant());
        }
    }
}
