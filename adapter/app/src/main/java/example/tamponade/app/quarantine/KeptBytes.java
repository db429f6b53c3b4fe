package example.tamponade.app.quarantine;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Base64;

/**
 * Bytes as a database keeps them to be read and searched: as text where they are text, as Base64 where not.
 *
 * @param encoding {@code text} or {@code base64}
 * @param content the text or its Base64
 */
public record KeptBytes(String encoding, String content) {

    /** No bytes. */
    public static final KeptBytes NONE = new KeptBytes("text", "");

    private static final String TEXT = "text";
    private static final String BASE64 = "base64";

    /** Keeps these bytes. */
    public static KeptBytes of(byte[] bytes) {
        String text = new String(bytes, StandardCharsets.UTF_8);
        // PostgreSQL has no place for a NUL in a text.
        boolean kept = text.indexOf('\0') < 0 && Arrays.equals(text.getBytes(StandardCharsets.UTF_8), bytes);
        return kept
                ? new KeptBytes(TEXT, text)
                : new KeptBytes(BASE64, Base64.getEncoder().encodeToString(bytes));
    }

    /** The bytes. */
    public byte[] bytes() {
        return encoding.equals(TEXT)
                ? content.getBytes(StandardCharsets.UTF_8)
                : Base64.getDecoder().decode(content);
    }
}
