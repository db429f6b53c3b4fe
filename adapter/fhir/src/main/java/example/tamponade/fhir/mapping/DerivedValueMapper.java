package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactInput;
import example.tamponade.core.casefile.FactKind;
import example.tamponade.core.casefile.HaemorrhageSeverity;
import example.tamponade.core.casefile.OutcomeClass;
import example.tamponade.core.casefile.Reading;
import example.tamponade.core.derivation.AtlsClass;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.FirstLineBundle;
import example.tamponade.core.derivation.NearMissCriterion;
import example.tamponade.core.derivation.TamponadeCondition;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.Coded;
import example.tamponade.core.event.LossMethod;
import example.tamponade.core.protocol.Band;
import example.tamponade.core.protocol.Bands;
import example.tamponade.core.protocol.BloodVolumeMethod;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.core.protocol.Phase;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.hl7.fhir.r4.model.BooleanType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.StringType;

/** A derived value as an Observation that names its inputs, its method, the software and the care protocol. */
final class DerivedValueMapper {

    private static final Set<FactKind> OF_FACILITY =
            EnumSet.of(FactKind.READINESS_SHARE, FactKind.DAYS_SINCE_READINESS_CHECK);
    private static final Map<Class<?>, String> ANSWERS = Map.of(
            Phase.class, "tamponade-phase",
            HaemorrhageSeverity.class, "haemorrhage-severity",
            OutcomeClass.class, "outcome-class",
            FirstLineBundle.class, "first-line-bundle",
            AtlsClass.class, "haemorrhage-class",
            NearMissCriterion.class, "near-miss-criterion",
            TamponadeCondition.class, "tamponade-condition");
    private static final Set<String> DONE = Set.of("Procedure", "MedicationAdministration");
    // Al Kadri 2011, Arch Gynecol Obstet 283:1207: about 30 %; more in large losses (WHO, Managing Complications in
    // Pregnancy and Childbirth).
    private static final String VISUAL_CAUTION = "Estimated by eye: visual estimates fall short by about 30 %, in large"
            + " losses often by half (Al Kadri 2011; WHO).";
    private static final String INTERPRETATION = "http://terminology.hl7.org/CodeSystem/v3-ObservationInterpretation";

    private DerivedValueMapper() {}

    static Observation map(DerivedValue fact, boolean amended, CaseScope scope) {
        Observation observation = new Observation();
        observation.setStatus(amended ? Observation.ObservationStatus.AMENDED : Observation.ObservationStatus.FINAL);
        // The only one with a code of R4's vital-signs profile.
        Kind kind = fact.kind() == FactKind.MEAN_ARTERIAL_PRESSURE ? Kind.VITAL_SIGNS : Kind.EXAM;
        observation.setCategory(kind.categories(scope.terms.local("observation-group", "derived")));
        observation.setCode(scope.terms.local("derived-fact", fact.kind().code()));
        subject(observation, fact, scope);
        observation.setEffective(Times.dateTime(fact.at()));
        observation.setIssuedElement(Times.instant(fact.issued()));
        observation.setMethod(scope.terms.local("derivation-method", method(fact, scope.file.protocol())));
        observation.setDevice(scope.software());
        observation.addExtension(scope.frame.extension(
                "care-protocol", new StringType(scope.file.protocol().reference())));
        String value = value(observation, fact, scope);
        bands(observation, fact, scope);
        origin(observation, fact, scope);
        String line = observation.getCode().getText() + ": " + value + ", " + Times.words(fact.at()) + ".";
        String method = "Worked out by the adapter: " + observation.getMethod().getText() + ".";
        boolean visual = isVisualEstimate(fact, scope);
        List<String> lines = visual
                ? List.of(line, method, VISUAL_CAUTION, CaseMapper.CAUTION)
                : List.of(line, method, CaseMapper.CAUTION);
        if (visual) {
            observation.addNote().setText(VISUAL_CAUTION);
        }
        Observation framed = scope.frame.on(
                observation, scope.ids.of(fact.key()), fact.kind().code(), lines);
        FactMappers.source(framed, fact.key(), scope);
        if (visual) {
            scope.frame.tag(framed, List.of("visual-estimate"));
        }
        return framed;
    }

    // The blood volume is worked out in one of three ways; by weight alone the height is not read.
    private static String method(DerivedValue fact, CareProtocol protocol) {
        boolean byHeight = fact.inputs().stream()
                .anyMatch(it -> it instanceof FactInput.OfEvent input && input.reading() == Reading.MOTHER_HEIGHT);
        if (!byHeight) {
            return fact.kind().code();
        }
        return fact.kind().code()
                + (protocol.bloodVolumeMethod() == BloodVolumeMethod.HEIGHT_WEIGHT ? "-height-weight" : "-obesity");
    }

    private static void subject(Observation observation, DerivedValue fact, CaseScope scope) {
        if (OF_FACILITY.contains(fact.kind())) {
            CaseEntry check = Objects.requireNonNull(scope.entry(fact.key().anchor()));
            observation.setSubject(scope.facility(check.event().facilityId()));
        } else {
            observation.setSubject(scope.mother()).setEncounter(scope.encounter(fact.key()));
        }
    }

    private static String value(Observation observation, DerivedValue fact, CaseScope scope) {
        if (fact.value() instanceof FactValue.Amount amount) {
            Quantity quantity = Quantities.of(amount.rounded(), amount.unit());
            observation.setValue(quantity);
            return Quantities.words(quantity);
        }
        if (fact.value() instanceof FactValue.Time time) {
            observation.setValue(Times.dateTime(time.time()));
            return Times.words(time.time());
        }
        if (fact.value() instanceof FactValue.Answer answer) {
            CodeableConcept concept = coded(answer.answer(), scope);
            observation.setValue(concept);
            return concept.getText();
        }
        if (fact.value() instanceof FactValue.Checklist checklist) {
            return checklist(observation, checklist, scope);
        }
        CodeableConcept reason = Absent.of(((FactValue.Missing) fact.value()).reason(), scope.terms);
        observation.setDataAbsentReason(reason);
        return "no value: " + reason.getText();
    }

    private static String checklist(Observation observation, FactValue.Checklist checklist, CaseScope scope) {
        List<String> lines = new ArrayList<>();
        for (FactValue.Item item : checklist.items()) {
            CodeableConcept code = coded(item.code(), scope);
            observation.addComponent().setCode(code).setValue(new BooleanType(item.done()));
            lines.add(code.getText() + (item.done() ? " on record" : " not on record"));
        }
        return String.join(", ", lines);
    }

    // Each list of answers is a code system of its own, named as the list.
    private static CodeableConcept coded(Coded answer, CaseScope scope) {
        return scope.terms.local(Objects.requireNonNull(ANSWERS.get(answer.getClass())), answer.code());
    }

    private static void bands(Observation observation, DerivedValue fact, CaseScope scope) {
        if (fact.band() == null) {
            return;
        }
        observation.addInterpretation(interpretation(fact.band()));
        if (fact.kind() == FactKind.SHOCK_INDEX) {
            Bands bands = scope.file.protocol().shockIndexBands();
            observation
                    .addReferenceRange()
                    .setHigh(Quantities.of(bands.raisedFrom(), bands.unit()))
                    .setText("Raised from " + bands.raisedFrom().toPlainString() + ", high from "
                            + bands.highFrom().toPlainString() + ", top band from "
                            + bands.criticalFrom().toPlainString() + ". Source: " + bands.source());
        }
    }

    private static CodeableConcept interpretation(Band band) {
        return switch (band) {
            case NORMAL -> new CodeableConcept(new Coding(INTERPRETATION, "N", "Normal"));
            case RAISED -> new CodeableConcept(new Coding(INTERPRETATION, "H", "High"));
            case HIGH -> new CodeableConcept(new Coding(INTERPRETATION, "HU", "Significantly high"));
            case CRITICAL -> new CodeableConcept(new Coding(INTERPRETATION, "HH", "Critical high"));
        };
    }

    // FHIR R4 derives observations from observations only. What was done is named by partOf, of a fact about a
    // tamponade
    // the tamponade alone; whatever else it was worked out from is its focus.
    private static void origin(Observation observation, DerivedValue fact, CaseScope scope) {
        if (fact.tamponade() != null) {
            observation.addPartOf(
                    scope.reference("Procedure", scope.ids.of(fact.tamponade(), Reading.TAMPONADE.code())));
            observation.addFocus(scope.reference("Device", scope.ids.of(fact.tamponade(), TamponadeMapper.DEVICE)));
        }
        for (Reference input : FactMappers.references(fact.inputs(), scope)) {
            String type = input.getReference().substring(0, input.getReference().indexOf('/'));
            if (type.equals("Observation")) {
                observation.addDerivedFrom(input);
            } else if (fact.tamponade() == null && DONE.contains(type)) {
                observation.addPartOf(input);
            } else if (!isTamponade(input, observation)) {
                observation.addFocus(input);
            }
        }
    }

    private static boolean isTamponade(Reference input, Observation observation) {
        return observation.getPartOf().stream().anyMatch(it -> it.getReference().equals(input.getReference()));
    }

    private static boolean isVisualEstimate(DerivedValue fact, CaseScope scope) {
        CaseEntry entry = scope.entry(fact.key().anchor());
        return fact.kind() == FactKind.BLOOD_LOSS_OF_READING
                && entry != null
                && entry.data() instanceof BloodLoss loss
                && loss.method() == LossMethod.VISUAL;
    }
}
