package example.tamponade.app.intake;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import org.jspecify.annotations.Nullable;

/** The bytes that something came in, whole; held once by all that came in them. */
public final class Original {

    /** The most bytes that are kept of one piece; an input with a longer one is broken off there. */
    public static final int LONGEST = 16 << 20;

    private final byte[] bytes;
    private volatile @Nullable String digest;

    private Original(byte[] bytes) {
        this.bytes = bytes;
    }

    /** These bytes, which nobody changes any more. */
    public static Original of(byte[] bytes) {
        return new Original(bytes);
    }

    /**
     * Reads a stream to its end.
     *
     * @throws TooLongToKeepException when it has more than {@link #LONGEST} bytes
     */
    public static byte[] read(InputStream in) throws IOException {
        byte[] bytes = in.readNBytes(LONGEST + 1);
        if (bytes.length > LONGEST) {
            throw new TooLongToKeepException();
        }
        return bytes;
    }

    /** The bytes; not to be changed. */
    public byte[] bytes() {
        return bytes;
    }

    /** How many bytes there are. */
    public int length() {
        return bytes.length;
    }

    /** SHA-256 of the bytes, lower-case hex. */
    public String digest() {
        String made = digest;
        if (made == null) {
            made = Piece.digest(bytes);
            digest = made;
        }
        return made;
    }

    /** Collects the bytes of a piece as they are read. */
    public static final class Builder {

        private final ByteArrayOutputStream bytes = new ByteArrayOutputStream(512);

        /**
         * Adds a byte.
         *
         * @throws TooLongToKeepException when there are more than {@link #LONGEST}
         */
        public void add(int b) throws TooLongToKeepException {
            demandRoom(1);
            bytes.write(b);
        }

        /**
         * Adds bytes.
         *
         * @throws TooLongToKeepException when there are more than {@link #LONGEST}
         */
        public void add(byte[] more) throws TooLongToKeepException {
            demandRoom(more.length);
            bytes.writeBytes(more);
        }

        private void demandRoom(int more) throws TooLongToKeepException {
            if (bytes.size() > LONGEST - more) {
                throw new TooLongToKeepException();
            }
        }

        /** How many bytes there are. */
        public int length() {
            return bytes.size();
        }

        /** The bytes so far. */
        public byte[] build() {
            return bytes.toByteArray();
        }
    }
}
