package example.tamponade.app.resources;

import example.tamponade.app.intake.Original;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/** Keeps the bytes read since a place, so that what the parser found can be given out as it was written. */
final class Capture extends FilterInputStream {

    private static final int AT_ONCE = 1 << 15;

    private Original.Builder kept = new Original.Builder();
    private long start;

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
        int read = super.read(buffer, offset, Math.min(length, AT_ONCE));
        if (read > 0) {
            kept.add(buffer, offset, read);
        }
        return read;
    }

    /** Lets go of everything before that place, which the parser has just passed. */
    void dropBefore(long place) throws IOException {
        Original before = kept.build();
        kept = new Original.Builder();
        kept.add(before, place - start, before.length());
        start = place;
    }

    /** What was read from the last place up to that one. */
    Original upTo(long place) throws IOException {
        Original.Builder part = new Original.Builder();
        part.add(kept.build(), 0, place - start);
        return part.build();
    }

    /** Everything since the last place, read to the end. */
    Original toTheEnd() throws IOException {
        byte[] buffer = new byte[AT_ONCE];
        int read = read(buffer, 0, buffer.length);
        while (read >= 0) {
            read = read(buffer, 0, buffer.length);
        }
        return kept.build();
    }
}
