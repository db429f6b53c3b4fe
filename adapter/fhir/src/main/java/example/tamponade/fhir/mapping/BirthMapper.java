package example.tamponade.fhir.mapping;

import example.tamponade.core.event.Birth;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Procedure;
import org.hl7.fhir.r4.model.Resource;

/** A birth: the delivery, how each baby was, and whether the placenta has come. */
final class BirthMapper {

    private static final String BIRTH = "birth";

    private BirthMapper() {}

    static List<Resource> map(Birth birth, Recorded event) {
        List<Resource> resources = new ArrayList<>();
        resources.add(delivery(birth, event));
        for (int i = 0; i < birth.babies().size(); i++) {
            resources.add(baby(birth, i, event));
        }
        resources.add(placenta(birth, event));
        return resources;
    }

    private static Procedure delivery(Birth birth, Recorded event) {
        CodeableConcept mode = event.answer("birth-mode", birth.mode());
        Procedure delivery = event.procedure(event.item("birth"));
        delivery.setPerformed(Times.dateTime(birth.at()));
        delivery.addExtension(event.extension("birth-mode", mode));
        return event.finish(delivery, BIRTH, "birth", "Birth, " + mode.getText() + ", at " + Times.words(birth.at()));
    }

    private static Observation baby(Birth birth, int index, Recorded event) {
        CodeableConcept outcome =
                event.answer("baby-outcome", birth.babies().get(index).outcome());
        Observation baby = event.observation(Kind.EXAM, event.item("baby-outcome"));
        baby.setEffective(Times.dateTime(birth.at()));
        baby.setValue(outcome).addPartOf(event.own("Procedure", BIRTH));
        String which = birth.babies().size() == 1 ? "Baby" : "Baby " + (index + 1);
        return event.finish(baby, "baby-outcome/" + (index + 1), "baby-outcome", which + ": " + outcome.getText());
    }

    private static Observation placenta(Birth birth, Recorded event) {
        CodeableConcept state = event.answer("placenta-state", birth.placentaDelivered());
        Observation placenta = event.observation(Kind.EXAM, event.item("placenta-delivery"));
        placenta.setValue(state).addPartOf(event.own("Procedure", BIRTH));
        return event.finish(placenta, "placenta-delivery", "placenta-delivery", "Placenta: " + state.getText());
    }
}
