package example.tamponade.fhir.mapping;

import example.tamponade.core.event.TamponadePositionChecked;
import java.util.List;
import org.hl7.fhir.r4.model.BooleanType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Resource;

/** Where the device was found to lie. */
final class PositionMapper {

    private PositionMapper() {}

    static List<Resource> map(TamponadePositionChecked check, Recorded event) {
        CodeableConcept position = event.answer("balloon-position", check.position());
        CodeableConcept how = event.answer("guidance", check.how());
        Observation observation = event.observation(Kind.PROCEDURE, event.item("tamponade-position"));
        observation.setValue(position).setMethod(how);
        if (event.tamponade() != null) {
            observation.addPartOf(event.tamponade());
        }
        if (event.device() != null) {
            observation.setDevice(event.device());
        }
        observation.addComponent().setCode(event.item("position-secured")).setValue(new BooleanType(check.secured()));
        String line = "Position: " + position.getText() + ", checked: " + how.getText()
                + (check.secured() ? ", fixed outside" : ", not fixed outside");
        return List.of(event.finish(observation, "tamponade-position", "tamponade-position", line));
    }
}
