package example.tamponade.app.resources;

import example.tamponade.app.intake.EventReader;
import java.io.ByteArrayOutputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.Arrays;

/**
 * Keeps the bytes read since a place, so that what the parser found can be given out as it was written. Of what is longer
 * than a resource may be it keeps the beginning, and the last bytes that the parser may have read ahead.
 */
final class Capture extends FilterInputStream {

    // More than the parser reads at once.
    private static final int TAIL = 1 << 16;

    private final ByteArrayOutputStream head = new ByteArrayOutputStream();
    private final byte[] tail = new byte[TAIL];
    private long headStart;
    private long position;

    Capture(InputStream in) {
        super(in);
    }

    @Override
    public int read() throws IOException {
        byte[] one = new byte[1];
        return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
    }

    @Override
    public int read(byte[] buffer, int offset, int length) throws IOException {
        int read = super.read(buffer, offset, Math.min(length, TAIL / 2));
        for (int i = 0; i < read; i++) {
            keep(buffer[offset + i]);
        }
        return read;
    }

    private void keep(byte b) {
        if (head.size() == position - headStart && head.size() <= EventReader.MAX_BYTES) {
            head.write(b);
        }
        tail[(int) (position % TAIL)] = b;
        position++;
    }

    /** Lets go of everything before that place, which the parser has just passed. */
    void dropBefore(long place) {
        byte[] ahead = new byte[(int) (position - place)];
        boolean whole = head.size() == position - headStart;
        byte[] kept = whole ? head.toByteArray() : new byte[0];
        for (int i = 0; i < ahead.length; i++) {
            ahead[i] = whole ? kept[(int) (place - headStart) + i] : tail[(int) ((place + i) % TAIL)];
        }
        head.reset();
        head.writeBytes(ahead);
        headStart = place;
    }

    /** What was kept from the last place up to that one, or as much of it as a resource may have. */
    byte[] upTo(long place) {
        byte[] kept = head.toByteArray();
        int length = (int) Math.min(Math.min(place - headStart, kept.length), EventReader.MAX_BYTES);
        return Arrays.copyOf(kept, length);
    }

    /** How many bytes lie between the last place and that one, kept or not. */
    long lengthUpTo(long place) {
        return place - headStart;
    }

    /** Everything read since the last place, or as much of it as a resource may have. */
    byte[] all() {
        return upTo(position);
    }
}
