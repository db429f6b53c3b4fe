package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.Reading;
import example.tamponade.core.event.Laboratory;
import java.util.List;
import java.util.regex.Pattern;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Resource;

/** A bedside or laboratory result. */
final class LaboratoryMapper {

    // The LOINC codes mapped to name mass in a volume; an amount of substance is another quantity.
    private static final Pattern MASS_IN_VOLUME = Pattern.compile("[munpdk]?g/[dcmun]?L");

    private LaboratoryMapper() {}

    static List<Resource> map(Laboratory result, Recorded event) {
        CodeableConcept analyte = event.answer("analyte", result.analyte());
        if (!MASS_IN_VOLUME.matcher(result.unit()).matches()) {
            String ours = event.scope.terms.system("analyte");
            analyte.getCoding().removeIf(it -> !it.getSystem().equals(ours));
        }
        Quantity value = Quantities.of(result.value(), result.unit());
        Observation observation = event.observation(Kind.LABORATORY, analyte);
        observation.setValue(value);
        String line = analyte.getText() + ": " + Quantities.words(value);
        return List.of(event.finish(observation, Reading.LABORATORY.code(), "bedside-laboratory", line));
    }
}
