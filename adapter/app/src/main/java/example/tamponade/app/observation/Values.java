package example.tamponade.app.observation;

import example.tamponade.app.intake.ReasonCode;
import example.tamponade.fhir.terms.EventForm;
import org.hl7.fhir.r4.model.BooleanType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.StringType;
import org.hl7.fhir.r4.model.Type;
import org.jspecify.annotations.Nullable;

/** States the value of an observation or of a component as a property of the event. */
final class Values {

    private static final String UCUM = "http://unitsofmeasure.org";

    private final EventForm form;

    /** The form says how each property is answered, which is how it is observed. */
    Values(EventForm form) {
        this.form = form;
    }

    /**
     * States a value.
     *
     * @param property the property, for example {@code vital-signs.pulse}
     * @param place where the value stands
     */
    void state(String property, Type value, Found found, String place) {
        String path = path(property);
        EventForm.Item item = form.item(property);
        if (item == null) {
            throw new IllegalArgumentException("the form has no item " + property);
        }
        if (value instanceof Quantity quantity && property.equals(Codes.LABORATORY)) {
            quantity(path, "/data/unit", null, quantity, found, place);
            return;
        }
        switch (item.type()) {
            case QUANTITY -> {
                if (value instanceof Quantity quantity) {
                    quantity(path, null, item.unit(), quantity, found, place);
                    return;
                }
            }
            case CHOICE -> {
                if (value instanceof CodeableConcept concept) {
                    choice(path, item.answers(), concept, found, place);
                    return;
                }
            }
            case BOOLEAN -> {
                if (value instanceof BooleanType yes) {
                    found.state(path, yes.getValueAsString(), null, place);
                    return;
                }
            }
            default -> {
                if (value instanceof StringType text) {
                    found.state(path, text.getValueAsString(), null, place);
                    return;
                }
            }
        }
        found.refuse(
                ReasonCode.WRONG_TYPE,
                path,
                place,
                "the value is of the type " + value.fhirType(),
                "send " + wanted(item, property));
    }

    private static String wanted(EventForm.Item item, String property) {
        return switch (item.type()) {
            case QUANTITY -> "valueQuantity, for example in " + item.unit();
            case CHOICE -> "valueCodeableConcept with a code from " + item.answers();
            case BOOLEAN -> "valueBoolean";
            default -> property.equals(Codes.LABORATORY) ? "valueQuantity with its unit" : "valueString";
        };
    }

    /** The path of a property in the data of the event. */
    static String path(String property) {
        return "/data" + property.substring(property.indexOf('.')).replace('.', '/');
    }

    private static void quantity(
            String path,
            @Nullable String unitPath,
            @Nullable String ownUnit,
            Quantity quantity,
            Found found,
            String place) {
        String unit = quantity.hasCode() ? quantity.getCode() : quantity.getUnit();
        if (!quantity.hasValue()) {
            found.refuse(ReasonCode.MISSING_PROPERTY, path, place, "the quantity has no value", "add the value");
        } else if (quantity.hasComparator()) {
            found.refuse(
                    ReasonCode.INVALID_VALUE,
                    path,
                    place,
                    "'" + quantity.getComparator().toCode() + "' is a limit and no reading",
                    "send what was read, without a comparator");
        } else if (unit == null || quantity.hasSystem() && !quantity.getSystem().equals(UCUM)) {
            found.refuse(
                    ReasonCode.WRONG_UNIT,
                    path,
                    place,
                    unit == null ? "the quantity has no unit" : "the unit is from " + quantity.getSystem(),
                    "send system " + UCUM + " and the unit as its code");
        } else if (unitPath != null) {
            found.state(path, quantity.getValueElement().getValueAsString(), null, place);
            found.state(unitPath, unit, null, place);
        } else {
            String text = quantity.getValueElement().getValueAsString();
            found.state(path, text, unit.equals(ownUnit) ? null : unit, place);
        }
    }

    private static void choice(
            String path, @Nullable String system, CodeableConcept concept, Found found, String place) {
        concept.getCoding().stream()
                .filter(it -> it.hasCode() && String.valueOf(system).equals(it.getSystem()))
                .map(Coding::getCode)
                .findFirst()
                .ifPresentOrElse(
                        code -> found.state(path, code, null, place),
                        () -> found.refuse(
                                ReasonCode.NOT_IN_LIST,
                                path,
                                place,
                                "none of its codes is one of ours",
                                "send a coding from " + system));
    }

    /** States the method of a reading of blood loss. */
    void method(CodeableConcept method, Found found, String place) {
        choice("/data/method", form.answersOf("blood-loss.method"), method, found, place);
    }
}
