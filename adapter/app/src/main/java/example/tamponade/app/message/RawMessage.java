package example.tamponade.app.message;

import example.tamponade.app.intake.EventReader;
import java.io.ByteArrayOutputStream;

/**
 * One message of an input as it came.
 *
 * @param number which one, from 1
 * @param header whether it begins with a message header; otherwise it is something else that stood before the first one
 * @param bytes the message with its segment ends; of a message that is too long only the beginning
 * @param length how many bytes it had
 */
@SuppressWarnings("ArrayRecordComponent") // Read once and never compared.
record RawMessage(int number, boolean header, byte[] bytes, long length) {

    /** Whether all of it is here. */
    boolean whole() {
        return bytes.length == length;
    }

    /** Puts a message together of its segments. */
    static final class Builder {

        private final ByteArrayOutputStream kept = new ByteArrayOutputStream(1024);
        private final boolean header;
        private long length;

        Builder(RawSegment first) {
            header = first.isHeader();
            add(first);
        }

        void add(RawSegment segment) {
            byte[] bytes = segment.bytes();
            long room = Math.max(0, EventReader.MAX_BYTES - length);
            kept.write(bytes, 0, (int) Math.min(room, bytes.length));
            length += segment.length();
        }

        RawMessage build(int number) {
            return new RawMessage(number, header, kept.toByteArray(), length);
        }
    }
}
