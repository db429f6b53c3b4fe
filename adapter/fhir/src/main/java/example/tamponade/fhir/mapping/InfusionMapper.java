package example.tamponade.fhir.mapping;

import example.tamponade.core.event.Infusion;
import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.MedicationAdministration;
import org.hl7.fhir.r4.model.PositiveIntType;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Resource;

/**
 * How an infusion runs from a time on. Each change of the rate is an administration of its own, with the time of the change.
 *
 * <p>Source: HL7 FHIR R4, MedicationAdministration.dosage.rate[x], comments.
 */
final class InfusionMapper {

    private InfusionMapper() {}

    static List<Resource> map(Infusion infusion, Recorded event) {
        MedicationAdministration administration = new MedicationAdministration();
        administration.setStatus(MedicationAdministration.MedicationAdministrationStatus.COMPLETED);
        CodeableConcept substance = event.answer("substance", infusion.substance());
        if (infusion.name() != null) {
            substance.setText(infusion.name());
        }
        administration.setMedication(substance);
        administration.setSubject(event.scope.mother()).setContext(event.encounter());
        administration.setEffective(Times.dateTime(event.at()));
        Quantity rate = Quantities.of(infusion.rateMlPerHour(), "mL/h");
        String words = words(substance.getText(), infusion);
        administration.getDosage().setText(words).setRate(rate);
        administration.addExtension(event.extension("infusion-line", new PositiveIntType(infusion.line())));
        administration.addExtension(event.extension("infusion-bag", new PositiveIntType(infusion.bag())));
        administration.addExtension(event.extension("bag-volume", Quantities.of(infusion.bagVolumeMl(), "mL")));
        if (infusion.dose() != null && infusion.unit() != null) {
            administration.addExtension(
                    event.extension("dose-in-bag", Quantities.of(infusion.dose(), infusion.unit())));
        }
        return List.of(event.finish(administration, "infusion-rate", "infusion-rate", words));
    }

    /** For example {@code Oxytocin 20 IU in 500 mL at 125 mL/h, line 1, bag 2}. */
    static String words(String substance, Infusion infusion) {
        String dose = infusion.dose() == null || infusion.unit() == null
                ? ""
                : " " + Quantities.words(Quantities.of(infusion.dose(), infusion.unit())) + " in";
        String rate = infusion.runs()
                ? " at " + Quantities.words(Quantities.of(infusion.rateMlPerHour(), "mL/h"))
                : " stopped";
        return substance + dose + " " + Quantities.words(Quantities.of(infusion.bagVolumeMl(), "mL")) + rate + ", line "
                + infusion.line() + ", bag " + infusion.bag();
    }
}
