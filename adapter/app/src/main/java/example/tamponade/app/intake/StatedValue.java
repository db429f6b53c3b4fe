package example.tamponade.app.intake;

import java.math.BigDecimal;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;

/**
 * The JSON of a stated value.
 *
 * @param node the value; the text as it came when it cannot be read
 * @param refusal why it cannot be read; null when it can
 */
record StatedValue(JsonNode node, @Nullable Reason refusal) {

    // No reading has as many; reading a number of a million digits would take the machine minutes.
    private static final int MAX_CHARACTERS = 100;

    private static final Set<String> YES = Set.of("true", "yes", "y");
    private static final Set<String> NO = Set.of("false", "no", "n");

    /** The value of a property that has that schema. */
    static StatedValue of(JsonNode schema, StatedEvent.Property property) {
        String text = property.text().strip();
        if (property.refusal() != null) {
            return new StatedValue(textNode(text), property.refusal());
        }
        ValueKind kind = EventSchema.kind(schema);
        if (property.unit() != null && kind != ValueKind.AMOUNT && !isUnitOf(schema, property.unit())) {
            return refused(
                    text,
                    ReasonCode.WRONG_UNIT,
                    "the unit '" + shortened(property.unit()) + "' has no place here",
                    "give the value without a unit; where the unit is a property of its own, give it there");
        }
        return switch (kind) {
            case AMOUNT -> amount(text, property.unit());
            case NUMBER -> number(text);
            case YES_OR_NO -> yesOrNo(text);
            case TIME, DATE, TEXT -> new StatedValue(textNode(text), null);
        };
    }

    // Years are plain numbers, and a count has the unit one.
    private static boolean isUnitOf(JsonNode schema, String unit) {
        return unit.equals(schema.path(Quantities.UNIT_ANNOTATION).asString("1"));
    }

    private static StatedValue amount(String text, @Nullable String unit) {
        StatedValue number = number(text);
        if (unit == null || number.refusal != null) {
            return number;
        }
        return new StatedValue(
                JsonNodeFactory.instance.objectNode().put("unit", unit).set("value", number.node), null);
    }

    private static StatedValue number(String text) {
        if (text.length() > MAX_CHARACTERS) {
            return noNumber(text);
        }
        try {
            return new StatedValue(JsonNodeFactory.instance.numberNode(new BigDecimal(text)), null);
        } catch (NumberFormatException e) {
            return noNumber(text);
        }
    }

    private static StatedValue noNumber(String text) {
        return refused(
                text,
                ReasonCode.WRONG_TYPE,
                "'" + shortened(text) + "' is not a number",
                "write the number alone, for example 350 or 37.5");
    }

    private static StatedValue yesOrNo(String text) {
        String lower = text.toLowerCase(Locale.ROOT);
        if (YES.contains(lower) || NO.contains(lower)) {
            return new StatedValue(JsonNodeFactory.instance.booleanNode(YES.contains(lower)), null);
        }
        return refused(
                text,
                ReasonCode.WRONG_TYPE,
                "'" + shortened(text) + "' is neither yes nor no",
                "write yes or no, or true or false");
    }

    private static StatedValue refused(String text, ReasonCode code, String message, String remedy) {
        return new StatedValue(textNode(text), new Reason(code, "", message, remedy));
    }

    private static JsonNode textNode(String text) {
        return JsonNodeFactory.instance.stringNode(text);
    }

    private static String shortened(String text) {
        return text.length() > 60 ? text.substring(0, 60) + "…" : text;
    }
}
