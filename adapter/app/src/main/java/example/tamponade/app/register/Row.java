package example.tamponade.app.register;

import example.tamponade.app.intake.Original;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import org.jspecify.annotations.Nullable;

/**
 * A row of a register as it came.
 *
 * @param number its number as a spreadsheet shows it; the header is row 1
 * @param original the row with its line end
 * @param torn whether its quotes are not those of CSV, so that only its first line is here
 * @param severalLines whether a quoted cell goes over several lines
 */
record Row(long number, Original original, boolean torn, boolean severalLines) {

    /** Whether it has more bytes than an event may have. */
    boolean tooLong() {
        return original.tooLongForAnEvent();
    }

    /** The text of a row that is not too long, without a byte order mark; null when it is not UTF-8. */
    @Nullable
    String text() {
        try {
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(original.bytes()))
                    .toString();
            return text.startsWith("\uFEFF") ? text.substring(1) : text;
        } catch (CharacterCodingException e) {
            return null;
        }
    }

    /** Where it stands, for the sender. */
    String place() {
        return "row " + number;
    }
}
