package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.Reading;
import example.tamponade.core.event.Analyte;
import example.tamponade.core.event.Laboratory;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.core.protocol.LaboratoryLimit;
import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import java.util.List;
import java.util.regex.Pattern;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Resource;

/** A bedside or laboratory result. */
final class LaboratoryMapper {

    // The LOINC code of haemoglobin names mass in a volume; an amount of substance is another quantity.
    private static final Pattern MASS_IN_VOLUME = Pattern.compile("[munpdk]?g/[dcmun]?L");

    private static final String INTERPRETATION = "http://terminology.hl7.org/CodeSystem/v3-ObservationInterpretation";

    private LaboratoryMapper() {}

    static List<Resource> map(Laboratory result, Recorded event) {
        CodeableConcept analyte = event.answer("analyte", result.analyte());
        if (result.analyte() == Analyte.HAEMOGLOBIN
                && !MASS_IN_VOLUME.matcher(result.unit()).matches()) {
            String ours = event.scope.terms.system("analyte");
            analyte.getCoding().removeIf(it -> !it.getSystem().equals(ours));
        }
        Quantity value = Quantities.of(result.value(), result.unit());
        Observation observation = event.observation(Kind.LABORATORY, analyte);
        observation.setValue(value);
        interpret(result, observation, event.scope.file.protocol());
        String line = analyte.getText() + ": " + Quantities.words(value)
                + (observation.hasInterpretation()
                        ? ", " + observation.getInterpretationFirstRep().getText()
                        : "");
        return List.of(event.finish(observation, Reading.LABORATORY.code(), "bedside-laboratory", line));
    }

    // A result within the limits is not called normal: the protocol knows one side of most.
    private static void interpret(Laboratory result, Observation observation, CareProtocol protocol) {
        BigDecimal value = LaboratoryLimit.comparable(result);
        if (value == null) {
            return;
        }
        List<LaboratoryLimit> limits = LaboratoryLimit.of(result.analyte());
        range(limits.get(0), observation, protocol);
        for (LaboratoryLimit limit : limits) {
            BigDecimal edge = protocol.value(limit.setting());
            String unit = limit.setting().unit();
            if (limit.isBeyond(value, edge)) {
                observation.setInterpretation(List.of(code(limit)
                        .setText(limit.setting().code() + ": " + limit.relation() + " " + edge.toPlainString() + " "
                                + unit)));
            }
        }
    }

    // The milder limit: two lower ends of one range would contradict each other.
    private static void range(LaboratoryLimit limit, Observation observation, CareProtocol protocol) {
        Setting setting = limit.setting();
        Quantity edge = Quantities.of(protocol.value(setting), setting.unit());
        Observation.ObservationReferenceRangeComponent range = observation.addReferenceRange();
        range.setText(setting.code() + " of care protocol " + protocol.reference());
        if (limit.isUpper()) {
            range.setHigh(edge);
        } else {
            range.setLow(edge);
        }
    }

    private static CodeableConcept code(LaboratoryLimit limit) {
        if (limit.isUpper()) {
            return limit.isCritical() ? interpretation("HH", "Critical high") : interpretation("H", "High");
        }
        return limit.isCritical() ? interpretation("LL", "Critical low") : interpretation("L", "Low");
    }

    private static CodeableConcept interpretation(String code, String display) {
        return new CodeableConcept(new Coding(INTERPRETATION, code, display));
    }
}
