package example.tamponade.fhir.mapping;

import example.tamponade.core.derivation.AbsentReason;
import example.tamponade.fhir.terms.Terms;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;

/** Why a value is missing: FHIR's reason first, ours where there is one, and words. */
final class Absent {

    private static final String SYSTEM = "http://terminology.hl7.org/CodeSystem/data-absent-reason";

    private Absent() {}

    static CodeableConcept pressureUnrecordable(Terms terms) {
        Coding ours = terms.coding(terms.system("bedside-item"), "pressure-unrecordable");
        return unknown(ours.getDisplay()).addCoding(ours);
    }

    static CodeableConcept unknown(String text) {
        return reason("unknown", "Unknown", text);
    }

    static CodeableConcept of(AbsentReason reason, Terms terms) {
        return switch (reason) {
            case PRESSURE_UNRECORDABLE -> pressureUnrecordable(terms);
            case INPUT_MISSING -> unknown("A reading that the formula needs was not recorded");
            case WEIGHT_MISSING -> unknown("The mother's weight was not recorded");
            case DIASTOLIC_MISSING -> unknown("The diastolic pressure was not recorded");
            case BEGIN_MISSING -> unknown("The time that the interval begins with was not recorded");
            case INTAKE_MISSING -> unknown("No fluid or blood product given was recorded");
            case COLLECTION_TOO_SHORT -> unknown("Urine was collected for too short a time to give a rate");
            case FIRST_READING -> unknown("There is no reading before to tell over which time this was lost");
            case UNIT_NOT_CONVERTIBLE -> unknown("An amount was given in a unit that cannot be added up");
            case DIVISOR_ZERO -> reason("not-a-number", "Not a Number (NaN)", "The formula would divide by zero");
        };
    }

    private static CodeableConcept reason(String code, String display, String text) {
        return new CodeableConcept(new Coding(SYSTEM, code, display)).setText(text);
    }
}
