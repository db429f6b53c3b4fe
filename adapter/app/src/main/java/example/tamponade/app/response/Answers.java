package example.tamponade.app.response;

import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.fhir.terms.EventForm;
import org.hl7.fhir.r4.model.BooleanType;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.DateType;
import org.hl7.fhir.r4.model.DecimalType;
import org.hl7.fhir.r4.model.IntegerType;
import org.hl7.fhir.r4.model.PrimitiveType;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.StringType;
import org.hl7.fhir.r4.model.Type;
import org.hl7.fhir.r4.model.UriType;
import org.jspecify.annotations.Nullable;

/** Reads the answer to an item as the text and unit that an event states. */
final class Answers {

    private static final String UCUM = "http://unitsofmeasure.org";

    private Answers() {}

    /**
     * An answer, or the reason why it is none.
     *
     * @param text what was answered; null when there is a reason
     * @param unit the UCUM unit that came with it; null for the item's own
     */
    record Answer(
            @Nullable String text,
            @Nullable String unit,
            @Nullable Reason reason) {}

    /**
     * Reads an answer.
     *
     * @param path where in the event it belongs
     * @param place where in the response it stands
     */
    static Answer read(EventForm.Item item, @Nullable Type value, String path, String place) {
        if (value == null || value.isEmpty()) {
            return refused(ReasonCode.MISSING_PROPERTY, path, place, "the answer is empty", "leave the item out");
        }
        boolean fits = switch (item.type()) {
            case BOOLEAN -> value instanceof BooleanType;
            case INTEGER -> value instanceof IntegerType;
            case DECIMAL -> value instanceof DecimalType || value instanceof IntegerType;
            case QUANTITY -> value instanceof Quantity || value instanceof DecimalType || value instanceof IntegerType;
            case DATETIME -> value instanceof DateTimeType;
            case DATE -> value instanceof DateType;
            case URL -> value instanceof UriType;
            case CHOICE -> value instanceof Coding;
            default -> value.getClass() == StringType.class;
        };
        if (!fits) {
            return refused(
                    ReasonCode.WRONG_TYPE,
                    path,
                    place,
                    "the answer is of the type " + value.fhirType(),
                    "answer with " + answerElement(item));
        }
        if (value instanceof Quantity quantity) {
            return quantity(item, quantity, path, place);
        }
        return value instanceof Coding coding
                ? coding(item, coding, path, place)
                : new Answer(((PrimitiveType<?>) value).getValueAsString(), null, null);
    }

    private static String answerElement(EventForm.Item item) {
        return switch (item.type()) {
            case BOOLEAN -> "valueBoolean";
            case INTEGER -> "valueInteger";
            case DECIMAL -> "valueDecimal";
            case QUANTITY -> "valueQuantity, or valueDecimal in " + item.unit();
            case DATETIME -> "valueDateTime";
            case DATE -> "valueDate";
            case URL -> "valueUri";
            case CHOICE -> "valueCoding from " + item.answers();
            default -> "valueString";
        };
    }

    private static Answer quantity(EventForm.Item item, Quantity quantity, String path, String place) {
        if (!quantity.hasValue()) {
            return refused(
                    ReasonCode.MISSING_PROPERTY,
                    path,
                    place,
                    "the quantity has no value",
                    "add it, or leave the item out");
        }
        if (quantity.hasComparator()) {
            return refused(
                    ReasonCode.INVALID_VALUE,
                    path,
                    place,
                    "'" + quantity.getComparator().toCode() + "' is a limit and no reading",
                    "send what was read, without a comparator");
        }
        if (quantity.hasSystem() && !quantity.getSystem().equals(UCUM)) {
            return refused(
                    ReasonCode.WRONG_UNIT,
                    path,
                    place,
                    "the unit is from " + quantity.getSystem(),
                    "send a unit of UCUM, system " + UCUM + ", for example " + item.unit());
        }
        String unit = quantity.hasCode() ? quantity.getCode() : quantity.getUnit();
        boolean own = unit == null || unit.equals(item.unit());
        return new Answer(quantity.getValueElement().getValueAsString(), own ? null : unit, null);
    }

    private static Answer coding(EventForm.Item item, Coding coding, String path, String place) {
        if (!coding.hasCode()) {
            return refused(
                    ReasonCode.MISSING_PROPERTY,
                    path,
                    place,
                    "the answer has no code",
                    "send the code from " + item.answers());
        }
        if (coding.hasSystem() && !coding.getSystem().equals(item.answers())) {
            return refused(
                    ReasonCode.NOT_IN_LIST,
                    path,
                    place,
                    "the code '" + coding.getCode() + "' is from " + coding.getSystem(),
                    "send the code from " + item.answers());
        }
        return new Answer(coding.getCode(), null, null);
    }

    private static Answer refused(ReasonCode code, String path, String place, String message, String remedy) {
        return new Answer(null, null, new Reason(code, path, message, remedy).at(place));
    }
}
