package example.tamponade.app.intake;

import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import org.jspecify.annotations.Nullable;

/**
 * Reads a file of events line by line in constant memory. A line beyond {@link EventReader#MAX_BYTES} is passed over to
 * its end; its beginning, place and length are kept.
 */
public final class EventLines implements Closeable {

    private static final int NO_MORE = -1;

    private final InputStream in;
    private long number;
    private long offset;

    /** Reads from the stream, which is closed with this. */
    public EventLines(InputStream in) {
        this.in = new BufferedInputStream(in, 1 << 16);
    }

    /** The next line; null at the end. */
    public @Nullable EventLine next() throws IOException {
        ByteArrayOutputStream kept = new ByteArrayOutputStream(512);
        long begin = offset;
        int b = in.read();
        if (b == NO_MORE) {
            return null;
        }
        long length = 0;
        while (b != NO_MORE && b != '\n') {
            if (length < EventReader.MAX_BYTES) {
                kept.write(b);
            }
            length++;
            b = in.read();
        }
        offset += length + (b == NO_MORE ? 0 : 1);
        number++;
        return new EventLine(number, begin, length, kept.toByteArray());
    }

    @Override
    public void close() throws IOException {
        in.close();
    }
}
