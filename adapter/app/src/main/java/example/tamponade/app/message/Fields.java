package example.tamponade.app.message;

import ca.uhn.hl7v2.model.Primitive;
import ca.uhn.hl7v2.model.Type;
import ca.uhn.hl7v2.util.Terser;

/** Reads fields: what is absent, and what HL7 writes for "no value" ({@code ""}, 2.5.3.2), is the empty text. */
final class Fields {

    private static final String NO_VALUE = "\"\"";

    private Fields() {}

    static String text(Primitive field) {
        String value = field.getValue();
        return value == null || value.equals(NO_VALUE) ? "" : value.strip();
    }

    /** Whether the field says that there is no value, which is more than saying nothing. */
    static boolean saysNone(Type field) {
        return NO_VALUE.equals(Terser.getPrimitive(field, 1, 1).getValue());
    }

    /** A component of a field by its number, from 1; of a field without components the first is the field. */
    static String component(Type field, int number) {
        return text(Terser.getPrimitive(field, number, 1));
    }
}
