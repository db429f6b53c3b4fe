package example.tamponade.app.intake;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * The bytes that something came in, whole; held once by all that came in them. What is longer than an event may be is
 * read no further than to say so; it is held in a file until it is kept, so that no number of senders fills the memory.
 */
public final class Original {

    /** The most bytes that are kept of one piece; an input with a longer one is broken off there. */
    public static final int LONGEST = 16 << 20;

    private static final int AT_ONCE = 1 << 15;

    private final byte[] held;
    private final @Nullable SpilledBytes spilled;
    private volatile @Nullable String digest;

    private Original(byte[] held, @Nullable SpilledBytes spilled) {
        this.held = held;
        this.spilled = spilled;
    }

    /** These bytes, which nobody changes any more. */
    public static Original of(byte[] bytes) {
        return new Original(bytes, null);
    }

    /**
     * Reads a stream to its end.
     *
     * @throws TooLongToKeepException when it has more than {@link #LONGEST} bytes
     */
    public static Original read(InputStream in) throws IOException {
        Builder bytes = new Builder();
        bytes.add(in);
        return bytes.build();
    }

    /** How many bytes there are. */
    public int length() {
        return held.length + (spilled == null ? 0 : spilled.length());
    }

    /** Whether there are more bytes than are read as an event. */
    public boolean tooLongForAnEvent() {
        return length() > EventReader.MAX_BYTES;
    }

    /** The bytes; not to be changed. Of a long original they are read anew each time. */
    public byte[] bytes() {
        return beginning(length());
    }

    /** The first bytes, no more than that many; not to be changed. */
    public byte[] beginning(int most) {
        if (spilled == null) {
            return held.length <= most ? held : Arrays.copyOf(held, most);
        }
        byte[] bytes = Arrays.copyOf(held, Math.min(most, length()));
        if (bytes.length > held.length) {
            spilled.read(0, bytes, held.length);
        }
        return bytes;
    }

    /** The bytes as a stream. */
    public InputStream open() {
        return spilled == null
                ? new ByteArrayInputStream(held)
                : new SequenceInputStream(new ByteArrayInputStream(held), spilled.open());
    }

    /** SHA-256 of the bytes, lower-case hex. */
    public String digest() {
        String made = digest;
        if (made == null) {
            made = Piece.digest(open());
            digest = made;
        }
        return made;
    }

    /** Collects the bytes of a piece as they are read. */
    public static final class Builder {

        private final ByteArrayOutputStream held = new ByteArrayOutputStream(512);
        private final byte[] one = new byte[1];
        private @Nullable SpilledBytes spilled;

        /**
         * Adds a byte.
         *
         * @throws TooLongToKeepException when there are more than {@link #LONGEST}
         */
        public void add(int b) throws IOException {
            one[0] = (byte) b;
            add(one, 0, 1);
        }

        /**
         * Adds bytes.
         *
         * @throws TooLongToKeepException when there are more than {@link #LONGEST}
         */
        public void add(byte[] more, int from, int count) throws IOException {
            if (length() > LONGEST - count) {
                throw new TooLongToKeepException();
            }
            // One byte more than an event may have is held, so that what is held alone tells a long one.
            int fitting = spilled == null ? Math.min(count, EventReader.MAX_BYTES + 1 - held.size()) : 0;
            held.write(more, from, fitting);
            if (fitting < count) {
                spilled().add(more, from + fitting, count - fitting);
            }
        }

        /**
         * Adds all of another.
         *
         * @throws TooLongToKeepException when there are more than {@link #LONGEST}
         */
        public void add(Original more) throws IOException {
            add(more, 0, more.length());
        }

        /**
         * Adds those bytes of another from a place up to another.
         *
         * @throws TooLongToKeepException when there are more than {@link #LONGEST}
         */
        public void add(Original more, long from, long to) throws IOException {
            if (more.spilled == null) {
                add(more.held, Math.toIntExact(from), Math.toIntExact(to - from));
                return;
            }
            InputStream rest = more.open();
            rest.skipNBytes(from);
            byte[] buffer = new byte[AT_ONCE];
            for (long left = to - from; left > 0; ) {
                int read = rest.readNBytes(buffer, 0, (int) Math.min(left, buffer.length));
                add(buffer, 0, read);
                left -= read;
            }
        }

        /**
         * Adds what is left of a stream.
         *
         * @throws TooLongToKeepException when there are more than {@link #LONGEST}
         */
        public void add(InputStream more) throws IOException {
            byte[] buffer = new byte[AT_ONCE];
            for (int read = more.read(buffer); read >= 0; read = more.read(buffer)) {
                add(buffer, 0, read);
            }
        }

        private SpilledBytes spilled() throws IOException {
            SpilledBytes file = spilled == null ? new SpilledBytes() : spilled;
            spilled = file;
            return file;
        }

        /** How many bytes there are. */
        public int length() {
            return held.size() + (spilled == null ? 0 : spilled.length());
        }

        /** The bytes so far. */
        public Original build() throws IOException {
            if (spilled != null) {
                spilled.write();
            }
            return new Original(held.toByteArray(), spilled);
        }
    }
}
