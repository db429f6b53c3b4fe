package example.tamponade.app.intake;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/**
 * One event-to-be of an input: where it stood, what it was and what reading it came to.
 *
 * @param format the format it came in
 * @param place where in the input, in the sender's terms, for example {@code line 54}
 * @param original the bytes that hold it; its format reads the same piece from them again
 * @param part which of several pieces with this original; empty where it is the only one
 * @param intake the event, or every reason against it
 */
public record Piece(InputFormat format, String place, Original original, String part, Intake intake) {

    /** The only piece of its original. */
    public Piece(InputFormat format, String place, Original original, Intake intake) {
        this(format, place, original, "", intake);
    }

    /** SHA-256 of the bytes, lower-case hex. */
    public static String digest(byte[] bytes) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    /** SHA-256 of the text's UTF-8 bytes, lower-case hex. */
    public static String digest(String text) {
        return digest(text.getBytes(StandardCharsets.UTF_8));
    }
}
