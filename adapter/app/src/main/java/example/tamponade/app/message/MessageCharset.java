package example.tamponade.app.message;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.util.Map;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Which characters do a message's bytes stand for? MSH-18 says it (HL7 2.5.1, table 0211); when it is empty, UTF-8. */
final class MessageCharset {

    private static final int FIELD = 18;

    private static final Map<String, String> BY_CODE = Map.ofEntries(
            Map.entry("", "UTF-8"),
            Map.entry("ASCII", "US-ASCII"),
            Map.entry("UNICODE", "UTF-8"),
            Map.entry("UNICODE UTF-8", "UTF-8"),
            Map.entry("8859/1", "ISO-8859-1"),
            Map.entry("8859/2", "ISO-8859-2"),
            Map.entry("8859/3", "ISO-8859-3"),
            Map.entry("8859/4", "ISO-8859-4"),
            Map.entry("8859/5", "ISO-8859-5"),
            Map.entry("8859/6", "ISO-8859-6"),
            Map.entry("8859/7", "ISO-8859-7"),
            Map.entry("8859/8", "ISO-8859-8"),
            Map.entry("8859/9", "ISO-8859-9"),
            Map.entry("8859/15", "ISO-8859-15"));

    private MessageCharset() {}

    /** What MSH-18 says, in a message that begins with its header. */
    static String code(String message) {
        String header = message.split("[\r\n]", 2)[0];
        if (header.length() < 4) {
            return "";
        }
        String[] fields = header.split(Pattern.quote(header.substring(3, 4)), FIELD + 1);
        return fields.length < FIELD ? "" : fields[FIELD - 1].split("[~^]", 2)[0].strip();
    }

    /** The character set of that code; null when it is not among those that can be read. */
    static @Nullable Charset of(String code) {
        String name = BY_CODE.get(code);
        return name == null ? null : Charset.forName(name);
    }

    /** The text; null when the bytes are not in that character set. */
    static @Nullable String decode(byte[] message, Charset charset) {
        try {
            return charset.newDecoder().decode(ByteBuffer.wrap(message)).toString();
        } catch (CharacterCodingException e) {
            return null;
        }
    }
}
