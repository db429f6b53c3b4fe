package example.tamponade.fhir.mapping;

import example.tamponade.core.event.Manoeuvre;
import java.time.OffsetDateTime;
import java.util.List;
import org.hl7.fhir.r4.model.Procedure;
import org.hl7.fhir.r4.model.Resource;

/** Something done with hands or garment against the bleeding. */
final class ManoeuvreMapper {

    private ManoeuvreMapper() {}

    static List<Resource> map(Manoeuvre manoeuvre, Recorded event) {
        Procedure procedure = event.procedure(event.answer("manoeuvre-kind", manoeuvre.kind()));
        OffsetDateTime end = manoeuvre.end();
        String line = procedure.getCode().getText() + " from " + Times.words(manoeuvre.start());
        if (end == null) {
            procedure.setPerformed(Times.dateTime(manoeuvre.start()));
        } else {
            procedure.setPerformed(Times.period(manoeuvre.start(), end));
            line += " to " + Times.words(end);
        }
        return List.of(event.finish(procedure, "bedside-manoeuvre", "bedside-manoeuvre", line));
    }
}
