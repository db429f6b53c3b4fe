package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.Reading;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.fhir.terms.Terms;
import java.math.BigDecimal;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Observation;
import org.jspecify.annotations.Nullable;

/** A blood pressure as a panel; one that was sought and not heard is a panel that says so. */
final class BloodPressureMapper {

    private BloodPressureMapper() {}

    static boolean isIn(VitalSigns signs) {
        return signs.systolic() != null || signs.diastolic() != null || unrecordable(signs);
    }

    static Observation map(VitalSigns signs, Recorded event) {
        Terms terms = event.scope.terms;
        Observation pressure =
                event.observation(Kind.VITAL_SIGNS, Loinc.BLOOD_PRESSURE_PANEL.concept(terms, "Blood pressure"));
        add(pressure, Loinc.SYSTOLIC.concept(terms, "Systolic"), signs.systolic(), signs, terms);
        add(pressure, Loinc.DIASTOLIC.concept(terms, "Diastolic"), signs.diastolic(), signs, terms);
        return event.finish(
                pressure, Reading.BLOOD_PRESSURE.code(), "vital-blood-pressure", "Blood pressure: " + words(signs));
    }

    private static void add(
            Observation pressure, CodeableConcept code, @Nullable BigDecimal value, VitalSigns signs, Terms terms) {
        Observation.ObservationComponentComponent component =
                pressure.addComponent().setCode(code);
        if (value != null) {
            component.setValue(Quantities.of(value, "mm[Hg]"));
        } else if (unrecordable(signs)) {
            component.setDataAbsentReason(Absent.pressureUnrecordable(terms));
        } else {
            component.setDataAbsentReason(Absent.unknown("Not recorded"));
        }
    }

    /** The reading in words, for example {@code 92/55 mmHg}. */
    static String words(VitalSigns signs) {
        return signs.systolic() == null && signs.diastolic() == null
                ? "sought, could not be heard or felt"
                : words(signs.systolic()) + "/" + words(signs.diastolic()) + " mmHg";
    }

    private static String words(@Nullable BigDecimal value) {
        return value == null ? "not recorded" : value.toPlainString();
    }

    private static boolean unrecordable(VitalSigns signs) {
        return Boolean.TRUE.equals(signs.pressureUnrecordable());
    }
}
