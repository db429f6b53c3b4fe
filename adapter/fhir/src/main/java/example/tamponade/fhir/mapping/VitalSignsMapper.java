package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.Reading;
import example.tamponade.core.event.Consciousness;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.fhir.terms.Terms;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** One set of vital signs: an observation each, on the R4 vital signs profiles where there is one. */
final class VitalSignsMapper {

    private VitalSignsMapper() {}

    static List<Resource> map(VitalSigns signs, Recorded event) {
        Terms terms = event.scope.terms;
        List<Resource> resources = new ArrayList<>();
        add(resources, Reading.PULSE, Loinc.HEART_RATE.concept(terms, "Pulse"), signs.pulse(), "/min", event);
        if (BloodPressureMapper.isIn(signs)) {
            resources.add(BloodPressureMapper.map(signs, event));
        }
        CodeableConcept respirations = Loinc.RESPIRATORY_RATE.concept(terms, "Respirations");
        add(resources, Reading.RESPIRATIONS, respirations, signs.respirations(), "/min", event);
        CodeableConcept saturation = Loinc.OXYGEN_SATURATION.concept(terms, "Oxygen saturation by pulse oximeter");
        saturation.addCoding(Loinc.OXYGEN_SATURATION_BY_PULSE_OXIMETRY.coding(terms));
        add(resources, Reading.OXYGEN_SATURATION, saturation, signs.oxygenSaturation(), "%", event);
        CodeableConcept temperature = Loinc.BODY_TEMPERATURE.concept(terms, "Temperature");
        add(resources, Reading.TEMPERATURE, temperature, signs.temperatureC(), "Cel", event);
        if (signs.consciousness() != null) {
            resources.add(consciousness(signs.consciousness(), event));
        }
        return resources;
    }

    private static void add(
            List<Resource> resources,
            Reading reading,
            CodeableConcept code,
            @Nullable BigDecimal value,
            String unit,
            Recorded event) {
        if (value == null) {
            return;
        }
        Quantity quantity = Quantities.of(value, unit);
        Observation observation = event.observation(Kind.VITAL_SIGNS, code);
        observation.setValue(quantity);
        String line = code.getText() + ": " + Quantities.words(quantity);
        resources.add(event.finish(observation, reading.code(), "vital-" + reading.code(), line));
    }

    private static Observation consciousness(Consciousness level, Recorded event) {
        CodeableConcept answer = event.answer("consciousness", level);
        Observation observation = event.observation(Kind.EXAM, event.item("consciousness"));
        observation.setValue(answer);
        String line = "Consciousness (AVPU): " + level.code() + ", " + answer.getText();
        return event.finish(observation, Reading.CONSCIOUSNESS.code(), "consciousness", line);
    }
}
