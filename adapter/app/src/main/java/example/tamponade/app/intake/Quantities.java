package example.tamponade.app.intake;

import example.tamponade.core.quantity.Conversion;
import example.tamponade.core.quantity.Ucum;
import java.math.BigDecimal;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Turns every amount that came as {@code {value, unit}} into a number in the fixed unit that the schema names for it. */
final class Quantities {

    static final String UNIT_ANNOTATION = "x-unit";

    private Quantities() {}

    /** Replaces the amounts of an event's data in place; amounts that cannot be converted become reasons. */
    static void convert(String type, ObjectNode data, List<Reason> reasons) {
        convert(EventSchema.data(type), data, "/data", reasons);
    }

    private static void convert(JsonNode definition, ObjectNode object, String path, List<Reason> reasons) {
        for (String name : List.copyOf(object.propertyNames())) {
            JsonNode target = EventSchema.property(definition, name);
            if (object.get(name) instanceof ObjectNode inner) {
                if (target.has(UNIT_ANNOTATION)) {
                    replace(object, name, target.get(UNIT_ANNOTATION).stringValue(), path, reasons);
                } else {
                    convert(target, inner, path + "/" + name, reasons);
                }
            }
        }
    }

    private static void replace(ObjectNode object, String name, String unit, String path, List<Reason> reasons) {
        JsonNode amount = object.get(name);
        BigDecimal value = amount.get("value").decimalValue();
        Conversion conversion = Ucum.convert(value, amount.get("unit").stringValue(), unit);
        if (conversion instanceof Conversion.Converted converted) {
            object.put(name, converted.value());
        } else if (conversion instanceof Conversion.Refused refused) {
            reasons.add(new Reason(
                    ReasonCode.WRONG_UNIT,
                    path + "/" + name + "/unit",
                    refused.reason(),
                    "send the amount in " + unit + " or in another UCUM unit of the same kind"));
        }
    }
}
