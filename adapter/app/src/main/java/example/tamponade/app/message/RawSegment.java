package example.tamponade.app.message;

import example.tamponade.app.intake.EventReader;
import java.io.ByteArrayOutputStream;
import java.util.Set;

/** A segment as it came, with its end; kept up to the most that a message may have and counted beyond it. */
final class RawSegment {

    private static final int ID_LENGTH = 3;
    private static final Set<String> ENVELOPE = Set.of("FHS", "BHS", "BTS", "FTS");

    private final ByteArrayOutputStream kept = new ByteArrayOutputStream(128);
    private final StringBuilder id = new StringBuilder(ID_LENGTH);
    private long length;
    private boolean blank = true;

    void add(int b) {
        if (length < ID_LENGTH) {
            id.append((char) b);
        }
        if (length < EventReader.MAX_BYTES) {
            kept.write(b);
        }
        length++;
        blank &= b <= ' ';
    }

    byte[] bytes() {
        return kept.toByteArray();
    }

    long length() {
        return length;
    }

    boolean blank() {
        return blank;
    }

    boolean isHeader() {
        return id.toString().equals("MSH");
    }

    /** Whether it is of the envelope that holds a file or a batch of messages together (HL7 2.5.1, 2.10.3). */
    boolean isEnvelope() {
        return ENVELOPE.contains(id.toString());
    }
}
