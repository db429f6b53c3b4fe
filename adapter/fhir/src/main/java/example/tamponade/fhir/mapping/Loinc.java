package example.tamponade.fhir.mapping;

import example.tamponade.fhir.terms.Terms;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;

/** The LOINC codes that the R4 vital signs profiles ask for. */
enum Loinc {
    HEART_RATE("8867-4"),
    RESPIRATORY_RATE("9279-1"),
    OXYGEN_SATURATION("2708-6"),
    OXYGEN_SATURATION_BY_PULSE_OXIMETRY("59408-5"),
    BODY_TEMPERATURE("8310-5"),
    BODY_HEIGHT("8302-2"),
    BODY_WEIGHT("29463-7"),
    BLOOD_PRESSURE_PANEL("85354-9"),
    SYSTOLIC("8480-6"),
    DIASTOLIC("8462-4");

    private static final String SYSTEM = "http://loinc.org";

    private final String code;

    Loinc(String code) {
        this.code = code;
    }

    Coding coding(Terms terms) {
        return terms.coding(SYSTEM, code);
    }

    CodeableConcept concept(Terms terms, String text) {
        return new CodeableConcept(coding(terms)).setText(text);
    }
}
