package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.Reading;
import example.tamponade.core.event.TamponadeRemoved;
import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Procedure;
import org.hl7.fhir.r4.model.Resource;

/** The device came out. */
final class RemovalMapper {

    private RemovalMapper() {}

    static List<Resource> map(TamponadeRemoved removed, Recorded event) {
        CodeableConcept reason = event.answer("removal-reason", removed.reason());
        Procedure removal = event.procedure(event.item("tamponade-removal"));
        removal.addReasonCode(reason);
        if (event.tamponade() != null) {
            removal.addPartOf(event.tamponade());
        }
        String line = removal.getCode().getText() + ": " + reason.getText();
        return List.of(event.finish(removal, Reading.TAMPONADE_REMOVAL.code(), "tamponade-removal", line));
    }
}
