package example.tamponade.fhir.pseudonym;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.UUID;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * Names what must not be known by what only the holder of the key can find again: HMAC-SHA-256 (RFC 2104, FIPS 180-4). The
 * same key gives the same names, so that what belongs together stays together from one hand-over to the next.
 */
public final class PseudonymKey {

    /** How long a key must be at least, in bytes. */
    public static final int SHORTEST = 32;

    private static final String ALGORITHM = "HmacSHA256";
    private static final int LONGEST_SHIFT_DAYS = 3652;
    private static final int SHORTEST_SHIFT_DAYS = 366;

    private final SecretKeySpec key;

    /**
     * Names by that key.
     *
     * @throws IllegalArgumentException when it is too short
     */
    public PseudonymKey(byte[] key) {
        if (key.length < SHORTEST) {
            throw new IllegalArgumentException("a key of pseudonyms has at least " + SHORTEST
                    + " bytes; make one with: openssl rand -out FILE 32");
        }
        this.key = new SecretKeySpec(key, ALGORITHM);
    }

    private byte[] digest(String kind, String text) {
        try {
            Mac mac = Mac.getInstance(ALGORITHM);
            mac.init(key);
            mac.update(kind.getBytes(StandardCharsets.UTF_8));
            mac.update((byte) 0);
            return mac.doFinal(text.getBytes(StandardCharsets.UTF_8));
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("every Java has " + ALGORITHM, e);
        }
    }

    /** The logical id in place of another, as a UUID (RFC 9562, version 8). */
    String id(String id) {
        byte[] bytes = Arrays.copyOf(digest("id", id), 16);
        bytes[6] = (byte) (bytes[6] & 0x0f | 0x80);
        bytes[8] = (byte) (bytes[8] & 0x3f | 0x80);
        HexFormat hex = HexFormat.of();
        String text = hex.formatHex(bytes);
        return UUID.fromString(text.substring(0, 8) + "-" + text.substring(8, 12) + "-" + text.substring(12, 16) + "-"
                        + text.substring(16, 20) + "-" + text.substring(20))
                .toString();
    }

    /** The value in place of an identifier's. */
    String identifier(String system, String value) {
        return "p" + HexFormat.of().formatHex(digest("identifier", system + " " + value), 0, 12);
    }

    /** The digest in place of another. */
    String digest(String digest) {
        return HexFormat.of().formatHex(digest("digest", digest));
    }

    /** By how many days the times of a case are earlier: from one year to ten. */
    long days(String caseKey) {
        byte[] bytes = digest("days", caseKey);
        long number = (bytes[0] & 0xffL) << 16 | (bytes[1] & 0xffL) << 8 | bytes[2] & 0xffL;
        return SHORTEST_SHIFT_DAYS + number % (LONGEST_SHIFT_DAYS - SHORTEST_SHIFT_DAYS);
    }
}
