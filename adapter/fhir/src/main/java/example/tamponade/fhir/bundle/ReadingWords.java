package example.tamponade.fhir.bundle;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Map;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.BaseDateTimeType;
import org.hl7.fhir.r4.model.BooleanType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Type;

/** The value of an observation as a clinician writes it; common practice, no source. */
final class ReadingWords {

    private static final Map<String, Integer> DECIMALS = Map.ofEntries(
            Map.entry("mL", 0),
            Map.entry("/min", 0),
            Map.entry("mm[Hg]", 0),
            Map.entry("%", 0),
            Map.entry("min", 0),
            Map.entry("mL/h", 0),
            Map.entry("{count}", 0),
            Map.entry("kg", 1),
            Map.entry("Cel", 1),
            Map.entry("cm", 1),
            Map.entry("h", 1),
            Map.entry("g/dL", 1),
            Map.entry("wk", 1));
    private static final int OTHERWISE = 2;
    private static final String BLOOD_PRESSURE = "vital-blood-pressure";

    private ReadingWords() {}

    /** The value in words; empty when the observation has none and says nothing of it. */
    static String of(Observation observation, RowTimes times) {
        if (observation.hasValue()) {
            return words(observation.getValue(), times);
        }
        if (observation.hasComponent()) {
            String between = Profiles.of(observation).equals(BLOOD_PRESSURE) ? "/" : "; ";
            return observation.getComponent().stream()
                    .map(it -> component(it, between, times))
                    .distinct()
                    .collect(Collectors.joining(between));
        }
        return reason(observation.getDataAbsentReason());
    }

    /** The unit, for the head of a column; empty when the value has none. */
    static String unit(Observation observation) {
        // Asking for the first of no components would make one.
        boolean inParts = !observation.hasValue() && observation.hasComponent();
        Type value = inParts ? observation.getComponentFirstRep().getValue() : observation.getValue();
        boolean counts =
                value instanceof Quantity quantity && quantity.getCode().startsWith("{");
        return value instanceof Quantity quantity && !counts ? quantity.getUnit() : "";
    }

    /** Fewer decimals for what is read by the whole; never a nought for what is more than that. */
    static String rounded(Quantity quantity) {
        BigDecimal value = quantity.getValue();
        int decimals = DECIMALS.getOrDefault(quantity.getCode(), OTHERWISE);
        BigDecimal rounded = value.setScale(Math.min(decimals, Math.max(0, value.scale())), RoundingMode.HALF_UP);
        BigDecimal written = rounded.signum() == 0 ? value : rounded;
        BigDecimal plain = written.stripTrailingZeros();
        return (plain.scale() < 0 ? plain.setScale(0) : plain).toPlainString();
    }

    private static String component(
            Observation.ObservationComponentComponent component, String between, RowTimes times) {
        String value =
                component.hasValue() ? words(component.getValue(), times) : reason(component.getDataAbsentReason());
        return between.equals("/") ? value : component.getCode().getText() + ": " + value;
    }

    private static String words(Type value, RowTimes times) {
        if (value instanceof Quantity quantity) {
            return rounded(quantity);
        }
        if (value instanceof CodeableConcept concept) {
            return concept.getText();
        }
        if (value instanceof BaseDateTimeType time && time.getValue() != null) {
            return times.at(time.getValue().toInstant());
        }
        return value instanceof BooleanType yes ? (yes.booleanValue() ? "yes" : "no") : value.primitiveValue();
    }

    private static String reason(CodeableConcept reason) {
        String words =
                reason.hasText() ? reason.getText() : reason.getCodingFirstRep().getDisplay();
        return words == null ? "" : words.toLowerCase(java.util.Locale.ROOT);
    }
}
