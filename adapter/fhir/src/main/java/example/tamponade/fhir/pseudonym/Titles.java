package example.tamponade.fhir.pseudonym;

import java.util.List;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.MedicationAdministration;
import org.hl7.fhir.r4.model.Property;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Resource;

/** What a resource is about, by its code where it has one. */
final class Titles {

    private Titles() {}

    static String of(Resource resource) {
        if (resource instanceof MedicationAdministration given) {
            Quantity dose = given.getDosage().getDose();
            String much = dose.hasValue() ? " " + dose.getValue().toPlainString() + " " + dose.getUnit() : "";
            return given.getMedicationCodeableConcept().getText() + much;
        }
        for (String name : new String[] {"code", "type", "category"}) {
            Property property = resource.getNamedProperty(name);
            for (Base value : property == null ? List.<Base>of() : property.getValues()) {
                if (value instanceof CodeableConcept concept && concept.hasText()) {
                    return concept.getText();
                }
            }
        }
        return resource.fhirType();
    }
}
