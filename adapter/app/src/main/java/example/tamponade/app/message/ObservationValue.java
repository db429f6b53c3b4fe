package example.tamponade.app.message;

import ca.uhn.hl7v2.model.Primitive;
import ca.uhn.hl7v2.model.Type;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * A value of OBX-5 as text.
 *
 * @param text the value; empty when there is none
 * @param none whether it says that there is no value ({@code ""}), as of an empty list
 * @param refusal why it cannot be read; null when it can
 */
record ObservationValue(String text, boolean none, @Nullable Reason refusal) {

    private static final Set<String> SIMPLE = Set.of("NM", "ST", "TX", "FT", "ID", "IS", "DT", "DTM", "TS");
    private static final Set<String> CODED = Set.of("CE", "CWE", "CNE");

    /** Whether values of that type (OBX-2, HL7 table 0125) can be read. */
    static boolean isReadable(String type) {
        return SIMPLE.contains(type) || CODED.contains(type);
    }

    /** The types that can be read, for a remedy. */
    static String readable() {
        Set<String> all = new TreeSet<>(SIMPLE);
        all.addAll(CODED);
        return String.join(", ", all);
    }

    static ObservationValue of(String type, Type data) {
        String text = Fields.component(data, 1);
        if (CODED.contains(type)) {
            String system = Fields.component(data, 3);
            return system.isEmpty() || system.equals(ObservationCodes.OURS)
                    ? new ObservationValue(text, Fields.saysNone(data), null)
                    : refused(
                            text,
                            ReasonCode.NOT_IN_LIST,
                            "the code '" + Texts.shortened(text) + "' is of the system '" + Texts.shortened(system)
                                    + "'",
                            "send the code of ours (" + ObservationCodes.OURS + ")");
        }
        // Separators that were not escaped would cut the text off.
        return data instanceof Primitive && data.getExtraComponents().numComponents() > 0
                ? refused(
                        text,
                        ReasonCode.INVALID_VALUE,
                        "the value has several components",
                        "send one value; within a text ^ is written \\S\\ and & is written \\T\\")
                : new ObservationValue(text, Fields.saysNone(data), null);
    }

    private static ObservationValue refused(String text, ReasonCode code, String message, String remedy) {
        return new ObservationValue(text, false, new Reason(code, "", message, remedy));
    }
}
