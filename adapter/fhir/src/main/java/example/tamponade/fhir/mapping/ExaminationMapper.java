package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.Reading;
import example.tamponade.core.event.BleedingChecked;
import example.tamponade.core.event.SymptomsChecked;
import example.tamponade.core.event.UterusChecked;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.BooleanType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** What was felt and seen: the uterus and the bleeding. */
final class ExaminationMapper {

    private ExaminationMapper() {}

    static List<Resource> uterus(UterusChecked check, Recorded event) {
        List<Resource> resources = new ArrayList<>();
        CodeableConcept tone = event.answer("uterine-tone", check.tone());
        Observation observation = event.observation(Kind.EXAM, event.item("uterine-tone"));
        observation.setValue(tone);
        resources.add(
                event.finish(observation, Reading.UTERINE_TONE.code(), "uterine-tone", "Uterus: " + tone.getText()));
        if (check.fundusCm() != null) {
            resources.add(fundus(Quantities.of(check.fundusCm(), "cm"), event));
        }
        return resources;
    }

    private static Observation fundus(Quantity height, Recorded event) {
        Observation observation = event.observation(Kind.EXAM, event.item("fundal-height"));
        observation.setValue(height);
        String line = "Fundus: " + Quantities.words(height) + " relative to the umbilicus, above is positive";
        return event.finish(observation, Reading.FUNDAL_HEIGHT.code(), "fundal-height", line);
    }

    static List<Resource> bleeding(BleedingChecked check, Recorded event) {
        CodeableConcept amount = event.answer("bleeding-amount", check.amount());
        Observation observation = event.observation(Kind.EXAM, event.item("bleeding-amount"));
        observation.setValue(amount);
        String line = "Bleeding: " + amount.getText();
        if (check.otherSource() != null) {
            observation
                    .addComponent()
                    .setCode(event.item("other-bleeding-source"))
                    .setValue(new BooleanType(check.otherSource()));
            line += check.otherSource() ? ", also from elsewhere" : ", from nowhere else";
        }
        return List.of(event.finish(observation, Reading.BLEEDING_AMOUNT.code(), "bleeding-amount", line));
    }

    static List<Resource> symptoms(SymptomsChecked check, Recorded event) {
        Observation observation = event.observation(Kind.EXAM, event.item("symptoms"));
        List<String> words = new ArrayList<>();
        symptom("agitation-or-confusion", check.agitatedOrConfused(), observation, words, event);
        symptom("headache", check.unremittingHeadache(), observation, words, event);
        symptom("breathlessness", check.breathless(), observation, words, event);
        String line = "Symptoms: " + String.join(", ", words);
        return List.of(event.finish(observation, Reading.SYMPTOMS.code(), "symptoms", line));
    }

    private static void symptom(
            String item, @Nullable Boolean there, Observation observation, List<String> words, Recorded event) {
        if (there != null) {
            CodeableConcept code = event.item(item);
            observation.addComponent().setCode(code).setValue(new BooleanType(there));
            words.add(code.getText() + (there ? " yes" : " no"));
        }
    }
}
