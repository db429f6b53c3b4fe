package example.tamponade.app.intake;

import static java.nio.file.StandardOpenOption.CREATE_NEW;
import static java.nio.file.StandardOpenOption.DELETE_ON_CLOSE;
import static java.nio.file.StandardOpenOption.READ;
import static java.nio.file.StandardOpenOption.WRITE;

import java.io.BufferedInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Bytes in a file without a name: nobody else can open it, and it is gone with the process, however that ends, or when it
 * is not reached any more.
 */
final class SpilledBytes {

    private static final Path FOLDER = Path.of(System.getProperty("java.io.tmpdir"));

    private final FileChannel file;
    private final ByteBuffer unwritten = ByteBuffer.allocate(1 << 15);
    private int written;

    SpilledBytes() throws IOException {
        Path name = FOLDER.resolve("tamponade-" + UUID.randomUUID());
        this.file = FileChannel.open(name, Set.of(CREATE_NEW, READ, WRITE, DELETE_ON_CLOSE));
    }

    int length() {
        return written + unwritten.position();
    }

    void add(byte[] bytes, int from, int count) throws IOException {
        for (int done = 0; done < count; ) {
            int fitting = Math.min(count - done, unwritten.remaining());
            unwritten.put(bytes, from + done, fitting);
            done += fitting;
            if (!unwritten.hasRemaining()) {
                write();
            }
        }
    }

    /** Writes out what was added, so that it can be read. */
    void write() throws IOException {
        unwritten.flip();
        while (unwritten.hasRemaining()) {
            written += file.write(unwritten, written);
        }
        unwritten.clear();
    }

    /** Fills the array from that place on with the bytes from that position on. */
    void read(long position, byte[] bytes, int from) {
        ByteBuffer rest = ByteBuffer.wrap(bytes, from, bytes.length - from);
        try {
            while (rest.hasRemaining()) {
                if (file.read(rest, position + rest.position() - from) < 0) {
                    throw new EOFException();
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException("what was put aside while it was read cannot be read again", e);
        }
    }

    InputStream open() {
        return new BufferedInputStream(new Reading(), 1 << 15);
    }

    private final class Reading extends InputStream {

        private int position;

        @Override
        public int read() {
            byte[] one = new byte[1];
            return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
        }

        @Override
        public int read(byte @Nullable [] bytes, int offset, int count) {
            int more = Math.min(count, length() - position);
            if (more <= 0) {
                return count == 0 ? 0 : -1;
            }
            byte[] read = new byte[more];
            SpilledBytes.this.read(position, read, 0);
            System.arraycopy(read, 0, bytes, offset, more);
            position += more;
            return more;
        }
    }
}
