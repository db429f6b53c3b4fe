package example.tamponade.app.observation;

import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Original;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Observation;
import org.jspecify.annotations.Nullable;

/** Observations that stand beside one another and are of one event; as their original, one a line. */
final class ObservationGroup {

    private final List<Observation> observations = new ArrayList<>();
    private final List<String> places = new ArrayList<>();
    private final StringBuilder lines = new StringBuilder();
    private final @Nullable String type;

    ObservationGroup(Observation first, String line, String place, @Nullable String type) {
        this.type = type;
        add(first, line, place);
    }

    /** Takes in one more if it is of the same event; false when it is of another. */
    boolean takes(Observation observation, String line, String place, @Nullable String itsType) {
        Observation first = observations.get(0);
        Identity identity = Identity.of(first);
        boolean same = identity != null
                && identity.shared()
                && identity.equals(Identity.of(observation))
                && type != null
                && type.equals(itsType)
                && first.getStatus() == observation.getStatus()
                && first.getEffective() != null
                && first.getEffective().equalsDeep(observation.getEffective())
                && first.getIssuedElement().equalsDeep(observation.getIssuedElement())
                && first.getEncounter().equalsDeep(observation.getEncounter())
                && (long) lines.length() + line.length() < EventReader.MAX_BYTES / 4;
        if (same) {
            add(observation, line, place);
        }
        return same;
    }

    private void add(Observation observation, String line, String place) {
        observations.add(observation);
        places.add(place);
        lines.append(lines.isEmpty() ? "" : "\n").append(line);
    }

    List<Observation> observations() {
        return observations;
    }

    Original original() {
        return Original.of(lines.toString().getBytes(StandardCharsets.UTF_8));
    }

    /** Where they stand, from the first to the last. */
    String place() {
        String first = places.get(0);
        return places.size() == 1 ? first : first + " to " + places.get(places.size() - 1);
    }
}
