package example.tamponade.fhir.mapping;

import example.tamponade.core.event.BloodProductGiven;
import example.tamponade.core.event.MedicineGiven;
import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.IntegerType;
import org.hl7.fhir.r4.model.MedicationAdministration;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Resource;

/** Medicines, fluids and blood products given. */
final class MedicineMapper {

    private MedicineMapper() {}

    static List<Resource> medicine(MedicineGiven given, Recorded event) {
        CodeableConcept substance = event.answer("substance", given.substance());
        if (given.name() != null) {
            substance.setText(given.name());
        }
        CodeableConcept route = event.answer("route", given.route());
        Quantity dose = Quantities.of(given.dose(), given.unit());
        MedicationAdministration administration = administration(substance, dose, event);
        administration.getDosage().setRoute(route);
        String line = substance.getText() + " " + Quantities.words(dose) + ", " + route.getText();
        return List.of(event.finish(administration, "medicine-given", "medicine-given", line));
    }

    static List<Resource> bloodProduct(BloodProductGiven given, Recorded event) {
        CodeableConcept product = event.answer("blood-product", given.product());
        Quantity volume = Quantities.of(given.volumeMl(), "mL");
        MedicationAdministration administration = administration(product, volume, event);
        administration.addExtension(event.extension("units-given", new IntegerType(given.units())));
        String line = product.getText() + " " + given.units() + (given.units() == 1 ? " unit, " : " units, ")
                + Quantities.words(volume);
        return List.of(event.finish(administration, "blood-product-given", "blood-product-given", line));
    }

    private static MedicationAdministration administration(CodeableConcept medicine, Quantity dose, Recorded event) {
        MedicationAdministration administration = new MedicationAdministration();
        administration.setStatus(MedicationAdministration.MedicationAdministrationStatus.COMPLETED);
        administration.setMedication(medicine);
        administration.setSubject(event.scope.mother()).setContext(event.encounter());
        administration.setEffective(Times.dateTime(event.at()));
        administration.getDosage().setText(Quantities.words(dose)).setDose(dose);
        return administration;
    }
}
