package example.tamponade.app.results;

import ca.uhn.hl7v2.HL7Exception;
import ca.uhn.hl7v2.model.Type;
import ca.uhn.hl7v2.model.v251.datatype.CE;
import ca.uhn.hl7v2.model.v251.datatype.CWE;
import ca.uhn.hl7v2.model.v251.datatype.NM;
import ca.uhn.hl7v2.model.v251.datatype.TS;
import ca.uhn.hl7v2.model.v251.message.ORU_R01;
import ca.uhn.hl7v2.model.v251.segment.OBX;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import org.hl7.fhir.r4.model.BaseDateTimeType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Period;
import org.hl7.fhir.r4.model.Quantity;
import org.jspecify.annotations.Nullable;

/** How a derived value is written in HL7 2.5.1. */
final class ResultValues {

    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("yyyyMMddHHmmssxx");
    static final String OURS = "99TAM";
    private static final String LOINC = "http://loinc.org";
    private static final String DERIVED = "/CodeSystem/derived-fact";
    private static final String INTERPRETATION = "http://terminology.hl7.org/CodeSystem/v3-ObservationInterpretation";

    private ResultValues() {}

    static boolean isDerived(Observation observation) {
        return observation.getCode().getCoding().stream()
                .anyMatch(it -> it.hasSystem() && it.getSystem().endsWith(DERIVED));
    }

    /** Whether an OBX can hold it: a list of what was done cannot. */
    static boolean canBeTold(Observation observation) {
        boolean one = observation.getValue() instanceof Quantity
                || observation.getValue() instanceof CodeableConcept
                || observation.getValue() instanceof BaseDateTimeType;
        return one || !observation.hasValue() && !observation.hasComponent();
    }

    static String time(OffsetDateTime time) {
        return TIME.format(time);
    }

    /** When it held; the end of what it was measured over. */
    static @Nullable OffsetDateTime time(Observation observation) {
        BaseDateTimeType time = observation.getEffective() instanceof Period period
                ? period.getEndElement()
                : (BaseDateTimeType) observation.getEffective();
        return time == null || time.getValue() == null ? null : OffsetDateTime.parse(time.getValueAsString());
    }

    /** The standard code first where there is one, ours beside it. */
    static void code(CE code, Observation observation) throws HL7Exception {
        Coding ours = coding(observation, DERIVED);
        Coding standard = observation.getCode().getCoding().stream()
                .filter(it -> LOINC.equals(it.getSystem()))
                .findFirst()
                .orElse(null);
        Coding first = standard == null ? ours : standard;
        code.getIdentifier().setValue(first.getCode());
        code.getText().setValue(first.getDisplay());
        code.getNameOfCodingSystem().setValue(standard == null ? OURS : "LN");
        if (standard != null) {
            code.getAlternateIdentifier().setValue(ours.getCode());
            code.getAlternateText().setValue(ours.getDisplay());
            code.getNameOfAlternateCodingSystem().setValue(OURS);
        }
    }

    private static Coding coding(Observation observation, String end) {
        return observation.getCode().getCoding().stream()
                .filter(it -> it.getSystem().endsWith(end))
                .findFirst()
                .orElseThrow();
    }

    /** Table 0123. */
    static String headStatus(Observation observation) {
        return switch (observation.getStatus()) {
            case AMENDED -> "C";
            case ENTEREDINERROR -> "X";
            default -> "F";
        };
    }

    /** Table 0085; what has no value could not be obtained, which is no reassurance. */
    private static String status(Observation observation) {
        return switch (observation.getStatus()) {
            case ENTEREDINERROR -> "W";
            case AMENDED -> observation.hasValue() ? "C" : "X";
            default -> observation.hasValue() ? "F" : "X";
        };
    }

    static void fill(OBX segment, Observation observation, @Nullable OffsetDateTime time) throws HL7Exception {
        segment.getSetIDOBX().setValue("1");
        code(segment.getObservationIdentifier(), observation);
        value(segment, observation);
        for (Coding coding : observation.getInterpretationFirstRep().getCoding()) {
            if (INTERPRETATION.equals(coding.getSystem())) {
                segment.getAbnormalFlags(0).setValue(coding.getCode());
            }
        }
        segment.getObservationResultStatus().setValue(status(observation));
        if (time != null) {
            segment.getDateTimeOfTheObservation().getTime().setValue(time(time));
        }
    }

    private static void value(OBX segment, Observation observation) throws HL7Exception {
        ORU_R01 message = (ORU_R01) segment.getMessage();
        if (observation.getValue() instanceof Quantity quantity) {
            NM number = new NM(message);
            number.setValue(quantity.getValue().toPlainString());
            put(segment, "NM", number);
            segment.getUnits().getIdentifier().setValue(quantity.getCode());
            segment.getUnits().getText().setValue(quantity.getUnit());
            segment.getUnits().getNameOfCodingSystem().setValue("UCUM");
        } else if (observation.getValue() instanceof CodeableConcept concept) {
            Coding last = concept.getCoding().get(concept.getCoding().size() - 1);
            CWE coded = new CWE(message);
            coded.getIdentifier().setValue(last.getCode());
            coded.getText().setValue(concept.getText());
            coded.getNameOfCodingSystem().setValue(OURS);
            put(segment, "CWE", coded);
        } else if (observation.getValue() instanceof BaseDateTimeType at) {
            TS stamp = new TS(message);
            stamp.getTime().setValue(time(OffsetDateTime.parse(at.getValueAsString())));
            put(segment, "TS", stamp);
        }
    }

    private static void put(OBX segment, String type, Type value) throws HL7Exception {
        segment.getValueType().setValue(type);
        segment.getObservationValue(0).setData(value);
    }

    /** A warning in one line: how grave, what, since when, until when. */
    static String words(Flag warning) {
        String severity = warning.getExtension().stream()
                .filter(it -> it.getUrl().endsWith("/flag-severity"))
                .map(it -> it.getValue().primitiveValue())
                .findFirst()
                .orElse("");
        String since = warning.getPeriod().getStartElement().getValueAsString();
        String state = switch (warning.getStatus()) {
            case ACTIVE -> "stands since " + since;
            case INACTIVE ->
                "from " + since + " to " + warning.getPeriod().getEndElement().getValueAsString();
            default -> "withdrawn: entered in error";
        };
        return severity + ": " + warning.getCode().getText() + " (" + state + ")";
    }
}
