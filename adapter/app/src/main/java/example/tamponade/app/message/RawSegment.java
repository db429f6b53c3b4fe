package example.tamponade.app.message;

import example.tamponade.app.intake.Original;
import java.io.IOException;
import java.util.Set;

/** A segment as it came, with its end. */
final class RawSegment {

    private static final int ID_LENGTH = 3;
    private static final Set<String> ENVELOPE = Set.of("FHS", "BHS", "BTS", "FTS");

    private final Original.Builder kept = new Original.Builder();
    private final StringBuilder id = new StringBuilder(ID_LENGTH);
    private boolean blank = true;

    void add(int b) throws IOException {
        if (kept.length() < ID_LENGTH) {
            id.append((char) b);
        }
        kept.add(b);
        blank &= b <= ' ';
    }

    Original original() throws IOException {
        return kept.build();
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
