package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactKind;
import example.tamponade.core.event.BleedingChecked;
import example.tamponade.core.event.HaemorrhageRecognised;
import example.tamponade.core.event.MotherOutcome;
import example.tamponade.core.event.Outcome;
import example.tamponade.core.event.RecognitionCriterion;
import java.time.OffsetDateTime;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Condition;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** The haemorrhage of a case: one condition, however often it was recognised. */
final class HaemorrhageMapper {

    static final String CONDITION = "condition";

    private static final String CLINICAL = "http://terminology.hl7.org/CodeSystem/condition-clinical";
    private static final String VERIFICATION = "http://terminology.hl7.org/CodeSystem/condition-ver-status";
    private static final String SNOMED_CT = "http://snomed.info/sct";
    private static final String POSTPARTUM_HAEMORRHAGE = "47821001";

    private HaemorrhageMapper() {}

    /** Whether any event, standing or withdrawn, says that the haemorrhage was recognised. */
    static boolean isIn(CaseScope scope) {
        return !known(scope).isEmpty();
    }

    /** The condition; empty when no event speaks of it. */
    static List<Resource> map(CaseScope scope) {
        List<Recorded> known = known(scope);
        return known.isEmpty() ? List.of() : List.of(condition(known, scope));
    }

    private static List<Recorded> known(CaseScope scope) {
        List<Recorded> standing = recognitions(scope.standing());
        return standing.isEmpty() ? recognitions(scope.withdrawn()) : standing;
    }

    private static List<Recorded> recognitions(List<Recorded> events) {
        return events.stream()
                .filter(it -> it.data() instanceof HaemorrhageRecognised)
                .toList();
    }

    private static Condition condition(List<Recorded> recognitions, CaseScope scope) {
        Recorded first = recognitions.get(0);
        Condition condition = new Condition();
        condition.setVerificationStatus(status(VERIFICATION, "confirmed", "Confirmed"));
        Coding code = scope.terms.coding(SNOMED_CT, POSTPARTUM_HAEMORRHAGE);
        condition.setCode(new CodeableConcept(code).setText("Postpartum haemorrhage"));
        condition.setSubject(scope.mother()).setEncounter(first.encounter());
        condition.setOnset(Times.dateTime(first.at()));
        condition.setRecordedDateElement(Times.dateTime(first.event.recordedAt()));
        condition.setRecorder(scope.recorder(first.event));
        clinicalStatus(condition, scope);
        List<String> causes = texts(recognitions, HaemorrhageMapper::causes);
        each(recognitions, HaemorrhageMapper::causes)
                .forEach(it -> condition.addExtension(scope.frame.extension("suspected-cause", it)));
        recognitions.forEach(it -> addEvidence(condition, it));
        String line = "Postpartum haemorrhage, recognised by: "
                + String.join(", ", texts(recognitions, HaemorrhageMapper::criteria))
                + (causes.isEmpty() ? "" : "; suspected: " + String.join(", ", causes));
        Condition described =
                first.describe(condition, scope.caseId(CONDITION), CONDITION, "postpartum-haemorrhage", line);
        if (first.standing == Standing.WITHDRAWN) {
            EnteredInError.mark(described);
        }
        return described;
    }

    // Each criterion once, with the measured value behind it as it was known then.
    private static void addEvidence(Condition condition, Recorded recognition) {
        for (RecognitionCriterion criterion : ((HaemorrhageRecognised) recognition.data()).criteria()) {
            CodeableConcept code = recognition.answer("recognition-criterion", criterion);
            if (condition.getEvidence().stream()
                    .anyMatch(it -> it.getCodeFirstRep().equalsDeep(code))) {
                continue;
            }
            Condition.ConditionEvidenceComponent evidence =
                    condition.addEvidence().addCode(code);
            DerivedValue value = valueBehind(criterion, Known.upTo(recognition));
            if (value != null) {
                evidence.addDetail(FactMappers.reference(value.key(), recognition.scope));
            }
        }
    }

    private static @Nullable DerivedValue valueBehind(RecognitionCriterion criterion, Known known) {
        return switch (criterion) {
            case VOLUME -> known.last(FactKind.CUMULATIVE_BLOOD_LOSS);
            case SIGNS -> known.last(FactKind.SHOCK_INDEX);
            case JUDGEMENT -> null;
        };
    }

    private static void clinicalStatus(Condition condition, CaseScope scope) {
        Recorded outcome = CaseMappers.lastOutcome(scope);
        if (outcome != null && ((Outcome) outcome.data()).mother() == MotherOutcome.RECOVERED) {
            condition.setClinicalStatus(status(CLINICAL, "resolved", "Resolved"));
            OffsetDateTime controlled = controlledSince(scope);
            if (controlled != null) {
                condition.setAbatement(Times.dateTime(controlled));
            }
        } else {
            condition.setClinicalStatus(status(CLINICAL, "active", "Active"));
        }
    }

    // The first check without active bleeding behind the last with it; null when none was seen to be.
    private static @Nullable OffsetDateTime controlledSince(CaseScope scope) {
        OffsetDateTime since = null;
        for (Recorded event : scope.standing()) {
            if (event.data() instanceof BleedingChecked check) {
                if (check.amount().isActive()) {
                    since = null;
                } else if (since == null) {
                    since = event.at();
                }
            }
        }
        return since;
    }

    private static Stream<CodeableConcept> criteria(Recorded event) {
        return ((HaemorrhageRecognised) event.data())
                .criteria().stream().map(it -> event.answer("recognition-criterion", it));
    }

    private static Stream<CodeableConcept> causes(Recorded event) {
        return ((HaemorrhageRecognised) event.data())
                .suspectedCause().stream().map(it -> event.answer("suspected-cause", it));
    }

    // Each answer once, in the order it was first given.
    private static Collection<CodeableConcept> each(
            List<Recorded> recognitions, Function<Recorded, Stream<CodeableConcept>> answers) {
        Map<String, CodeableConcept> each = new LinkedHashMap<>();
        recognitions.stream().flatMap(answers).forEach(it -> each.putIfAbsent(it.getText(), it));
        return each.values();
    }

    private static List<String> texts(
            List<Recorded> recognitions, Function<Recorded, Stream<CodeableConcept>> answers) {
        return each(recognitions, answers).stream()
                .map(CodeableConcept::getText)
                .toList();
    }

    private static CodeableConcept status(String system, String code, String display) {
        return new CodeableConcept(new Coding(system, code, display));
    }
}
