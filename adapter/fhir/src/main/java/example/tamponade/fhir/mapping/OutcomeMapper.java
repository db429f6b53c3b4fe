package example.tamponade.fhir.mapping;

import example.tamponade.core.event.Note;
import example.tamponade.core.event.Outcome;
import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.StringType;

/** How the mother came out of the case, and notes in words. */
final class OutcomeMapper {

    private OutcomeMapper() {}

    static List<Resource> outcome(Outcome outcome, Recorded event) {
        CodeableConcept answer = event.answer("mother-outcome", outcome.mother());
        Observation observation = event.observation(Kind.OWN, event.item("mother-outcome"));
        observation.setValue(answer);
        String line = "Outcome: " + answer.getText() + (outcome.closesCase() ? "; the case is closed" : "");
        return List.of(event.finish(observation, "case-outcome", "case-outcome", line));
    }

    static List<Resource> note(Note note, Recorded event) {
        Observation observation = event.observation(Kind.OWN, event.item("bedside-note"));
        observation.setValue(new StringType(note.text()));
        return List.of(event.finish(observation, "bedside-note", "bedside-note", "Note: " + note.text()));
    }
}
