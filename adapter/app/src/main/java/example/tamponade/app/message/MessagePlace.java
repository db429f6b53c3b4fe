package example.tamponade.app.message;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A place in a message. Segments are counted within the message, from 1, each kind for itself, as ERR-2.2 counts them.
 *
 * @param order the number of the OBR that the segment belongs to; 0 when it belongs to none
 * @param segment the segment's id, for example {@code OBX}
 * @param sequence its number in the message
 * @param field the field, from 1; 0 for the segment as a whole
 * @param component the component, from 1; 0 for the field as a whole
 */
record MessagePlace(int order, String segment, int sequence, int field, int component) {

    private static final Pattern TEXT =
            Pattern.compile("(?:OBR (\\d{1,9}), )?([A-Z][A-Z0-9]{2}) (\\d{1,9})(?:, field (\\d{1,9}))?"
                    + "(?:, component (\\d{1,9}))?");

    static final MessagePlace HEADER = of("MSH", 1);

    static MessagePlace of(String segment, int sequence) {
        return new MessagePlace(0, segment, sequence, 0, 0);
    }

    static MessagePlace order(int sequence) {
        return of("OBR", sequence);
    }

    static MessagePlace observation(int order, int sequence) {
        return new MessagePlace(order, "OBX", sequence, 0, 0);
    }

    MessagePlace field(int number) {
        return new MessagePlace(order, segment, sequence, number, 0);
    }

    MessagePlace component(int number) {
        return new MessagePlace(order, segment, sequence, field, number);
    }

    /** The place that {@link #text()} names; null when that text is none. */
    static @Nullable MessagePlace read(@Nullable String text) {
        Matcher named = TEXT.matcher(text == null ? "" : text);
        return named.matches()
                ? new MessagePlace(
                        number(named.group(1)),
                        named.group(2),
                        number(named.group(3)),
                        number(named.group(4)),
                        number(named.group(5)))
                : null;
    }

    private static int number(@Nullable String digits) {
        return digits == null ? 0 : Integer.parseInt(digits);
    }

    /** As it is written in reasons, for example {@code OBR 2, OBX 14, field 6}. */
    String text() {
        return (order == 0 ? "" : "OBR " + order + ", ")
                + segment + " " + sequence
                + (field == 0 ? "" : ", field " + field)
                + (component == 0 ? "" : ", component " + component);
    }
}
