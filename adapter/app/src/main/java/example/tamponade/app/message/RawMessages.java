package example.tamponade.app.message;

import static ca.uhn.hl7v2.llp.MllpConstants.END_BYTE1;
import static ca.uhn.hl7v2.llp.MllpConstants.START_BYTE;

import java.io.BufferedInputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * The messages of an input, one after the other, in constant memory. A message begins with MSH; segments end with a
 * carriage return, a line feed or both. Batch and file
 * envelopes and the bytes that MLLP sets around messages are passed over; what else stands between messages is
 * handed on as it is.
 */
final class RawMessages implements Closeable {

    private static final int NO_MORE = -1;
    private static final byte[] BYTE_ORDER_MARK = {(byte) 0xEF, (byte) 0xBB, (byte) 0xBF};

    private final InputStream in;
    private @Nullable RawSegment ahead;
    private boolean begun;
    private int number;

    RawMessages(InputStream in) {
        this.in = new BufferedInputStream(in, 1 << 16);
    }

    /** The next message; null at the end. */
    @Nullable
    RawMessage next() throws IOException {
        RawSegment first = firstSegment();
        if (first == null) {
            return null;
        }
        RawMessage.Builder message = new RawMessage.Builder(first);
        RawSegment segment = segment();
        while (segment != null && !segment.isHeader()) {
            if (!segment.isEnvelope()) {
                message.add(segment);
            }
            segment = segment();
        }
        ahead = segment;
        number++;
        return message.build(number);
    }

    private @Nullable RawSegment firstSegment() throws IOException {
        RawSegment first = ahead == null ? segment() : ahead;
        while (first != null && (first.blank() || first.isEnvelope())) {
            first = segment();
        }
        return first;
    }

    private @Nullable RawSegment segment() throws IOException {
        passOverByteOrderMark();
        int b = in.read();
        if (b == NO_MORE) {
            return null;
        }
        RawSegment segment = new RawSegment();
        while (b == START_BYTE || b == END_BYTE1) {
            b = in.read();
        }
        while (b != NO_MORE && b != '\r' && b != '\n') {
            segment.add(b);
            b = in.read();
        }
        if (b != NO_MORE) {
            segment.add(b);
        }
        if (b == '\r' && followedByLineFeed()) {
            segment.add('\n');
        }
        return segment;
    }

    private boolean followedByLineFeed() throws IOException {
        in.mark(1);
        if (in.read() == '\n') {
            return true;
        }
        in.reset();
        return false;
    }

    private void passOverByteOrderMark() throws IOException {
        if (begun) {
            return;
        }
        begun = true;
        in.mark(BYTE_ORDER_MARK.length);
        if (!Arrays.equals(in.readNBytes(BYTE_ORDER_MARK.length), BYTE_ORDER_MARK)) {
            in.reset();
        }
    }

    @Override
    public void close() throws IOException {
        in.close();
    }
}
