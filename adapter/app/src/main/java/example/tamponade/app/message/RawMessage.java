package example.tamponade.app.message;

import example.tamponade.app.intake.Original;
import java.io.IOException;

/**
 * One message of an input as it came.
 *
 * @param number which one, from 1
 * @param header whether it begins with a message header; otherwise it is something else that stood before the first one
 * @param original the message with its segment ends
 */
record RawMessage(int number, boolean header, Original original) {

    /** Puts a message together of its segments. */
    static final class Builder {

        private final Original.Builder kept = new Original.Builder();
        private final boolean header;

        Builder(RawSegment first) throws IOException {
            header = first.isHeader();
            add(first);
        }

        void add(RawSegment segment) throws IOException {
            kept.add(segment.original());
        }

        RawMessage build(int number) throws IOException {
            return new RawMessage(number, header, kept.build());
        }
    }
}
