package example.tamponade.fhir.mapping;

import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.Mother;
import example.tamponade.core.event.MotherOutcome;
import example.tamponade.core.event.Outcome;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.DateType;
import org.hl7.fhir.r4.model.Enumerations;
import org.hl7.fhir.r4.model.Patient;
import org.jspecify.annotations.Nullable;

/** The mother: what the opening of the case says of her, or the case's id alone. */
final class MotherMapper {

    private MotherMapper() {}

    static Patient map(@Nullable CaseOpened opened, Recorded from) {
        CaseScope scope = from.scope;
        Patient patient = new Patient();
        patient.setGender(Enumerations.AdministrativeGender.FEMALE);
        List<String> words = new ArrayList<>();
        if (opened != null) {
            describe(patient, opened.mother(), words, scope);
        }
        deceased(patient, scope, words);
        String line = "Mother of case " + scope.file.caseId().number()
                + (words.isEmpty() ? "" : ": " + String.join(", ", words));
        Patient described =
                from.describe(patient, scope.caseId(CaseMappers.MOTHER), CaseMappers.MOTHER, "mother", line);
        return SecurityLabel.put(described, scope.file);
    }

    private static void describe(Patient patient, Mother mother, List<String> words, CaseScope scope) {
        mother.identifiers().forEach(it -> {
            patient.addIdentifier().setSystem(it.system()).setValue(it.value());
            words.add("number " + it.value());
        });
        if (mother.name() != null) {
            patient.addName().setText(mother.name());
            words.add(0, mother.name());
        }
        if (mother.birthDate() != null) {
            patient.setBirthDateElement(new DateType(mother.birthDate().toString()));
            words.add("born " + mother.birthDate());
        }
        if (mother.ageYears() != null) {
            patient.addExtension(scope.frame.extension("age-at-event", Quantities.of(mother.ageYears(), "a")));
            words.add("age " + mother.ageYears() + " years");
        }
    }

    private static void deceased(Patient patient, CaseScope scope, List<String> words) {
        Recorded outcome = CaseMappers.lastOutcome(scope);
        if (outcome != null && ((Outcome) outcome.data()).mother() == MotherOutcome.DIED) {
            patient.setDeceased(Times.dateTime(outcome.at()));
            words.add("died " + Times.words(outcome.at()));
        }
    }
}
