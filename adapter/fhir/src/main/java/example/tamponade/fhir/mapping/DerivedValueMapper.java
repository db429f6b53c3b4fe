package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactKind;
import example.tamponade.core.casefile.Reading;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.LossMethod;
import example.tamponade.core.protocol.Band;
import example.tamponade.core.protocol.Bands;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.StringType;

/** A derived value as an Observation that names its inputs, its method, the software and the care protocol. */
final class DerivedValueMapper {

    private static final Set<FactKind> OF_VITAL_SIGNS =
            EnumSet.of(FactKind.SHOCK_INDEX, FactKind.MEAN_ARTERIAL_PRESSURE, FactKind.PULSE_PRESSURE);
    private static final String INTERPRETATION = "http://terminology.hl7.org/CodeSystem/v3-ObservationInterpretation";

    private DerivedValueMapper() {}

    static Observation map(DerivedValue fact, boolean amended, CaseScope scope) {
        Observation observation = new Observation();
        observation.setStatus(amended ? Observation.ObservationStatus.AMENDED : Observation.ObservationStatus.FINAL);
        Kind kind = OF_VITAL_SIGNS.contains(fact.kind()) ? Kind.VITAL_SIGNS : Kind.EXAM;
        observation.setCategory(kind.categories(scope.terms.local("observation-group", "derived")));
        observation.setCode(scope.terms.local("derived-fact", fact.kind().code()));
        observation.setSubject(scope.mother()).setEncounter(scope.encounter());
        observation.setEffective(Times.dateTime(fact.at()));
        observation.setMethod(scope.terms.local("derivation-method", fact.kind().code()));
        observation.setDevice(scope.software());
        observation.addExtension(scope.frame.extension(
                "care-protocol", new StringType(scope.file.protocol().reference())));
        String value = value(observation, fact, scope);
        bands(observation, fact, scope);
        origin(observation, fact, scope);
        String line = observation.getCode().getText() + ": " + value + ", " + Times.words(fact.at()) + ".";
        String method = "Worked out by the adapter: " + observation.getMethod().getText() + ".";
        List<String> lines = List.of(line, method, CaseMapper.CAUTION);
        Observation framed = scope.frame.on(
                observation, scope.ids.of(fact.key()), fact.kind().code(), lines);
        FactMappers.source(framed, fact.key(), scope);
        if (isVisualEstimate(fact, scope)) {
            scope.frame.tag(framed, List.of("visual-estimate"));
        }
        return framed;
    }

    private static String value(Observation observation, DerivedValue fact, CaseScope scope) {
        if (fact.value() instanceof FactValue.Amount amount) {
            Quantity quantity = Quantities.of(amount.rounded(), amount.unit());
            observation.setValue(quantity);
            return Quantities.words(quantity);
        }
        CodeableConcept reason = Absent.of(((FactValue.Missing) fact.value()).reason(), scope.terms);
        observation.setDataAbsentReason(reason);
        return "no value: " + reason.getText();
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
                    .setText("Raised from " + bands.raisedFrom().toPlainString() + ", top band from "
                            + bands.criticalFrom().toPlainString() + ". Source: " + bands.source());
        }
    }

    private static CodeableConcept interpretation(Band band) {
        return switch (band) {
            case NORMAL -> new CodeableConcept(new Coding(INTERPRETATION, "N", "Normal"));
            case RAISED -> new CodeableConcept(new Coding(INTERPRETATION, "H", "High"));
            case CRITICAL -> new CodeableConcept(new Coding(INTERPRETATION, "HH", "Critical high"));
        };
    }

    // FHIR R4 derives observations from observations only; what was done is named by partOf.
    private static void origin(Observation observation, DerivedValue fact, CaseScope scope) {
        FactMappers.references(fact.inputs(), scope).stream()
                .filter(it -> it.getReference().startsWith("Observation/"))
                .forEach(observation::addDerivedFrom);
        if (fact.tamponade() != null) {
            observation.addPartOf(
                    scope.reference("Procedure", scope.ids.of(fact.tamponade(), Reading.TAMPONADE.code())));
            observation.addFocus(scope.reference("Device", scope.ids.of(fact.tamponade(), TamponadeMapper.DEVICE)));
        }
    }

    private static boolean isVisualEstimate(DerivedValue fact, CaseScope scope) {
        CaseEntry entry = scope.entry(fact.key().anchor());
        return fact.kind() == FactKind.BLOOD_LOSS_OF_READING
                && entry != null
                && entry.data() instanceof BloodLoss loss
                && loss.method() == LossMethod.VISUAL;
    }
}
