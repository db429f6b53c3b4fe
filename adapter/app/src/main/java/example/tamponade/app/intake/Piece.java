package example.tamponade.app.intake;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;

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

    /** The same piece, refused for that reason. */
    public Piece refused(Reason reason) {
        return new Piece(format, place, original, part, new Intake.Refused(List.of(reason)));
    }

    /** SHA-256 of the bytes, lower-case hex. */
    public static String digest(byte[] bytes) {
        return HexFormat.of().formatHex(sha256().digest(bytes));
    }

    /** SHA-256 of the stream's bytes, which are in memory or in a file of ours, lower-case hex. */
    public static String digest(InputStream bytes) {
        MessageDigest digest = sha256();
        try (DigestInputStream read = new DigestInputStream(bytes, digest)) {
            read.transferTo(OutputStream.nullOutputStream());
        } catch (IOException e) {
            throw new UncheckedIOException("what was put aside while it was read cannot be read again", e);
        }
        return HexFormat.of().formatHex(digest.digest());
    }

    private static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    /** SHA-256 of the text's UTF-8 bytes, lower-case hex. */
    public static String digest(String text) {
        return digest(text.getBytes(StandardCharsets.UTF_8));
    }
}
