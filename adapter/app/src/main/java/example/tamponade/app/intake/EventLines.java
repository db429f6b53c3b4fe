package example.tamponade.app.intake;

import java.io.BufferedInputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import org.jspecify.annotations.Nullable;

/**
 * Reads a file of events line by line in constant memory.
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

    /**
     * The next line; null at the end.
     *
     * @throws TooLongToKeepException when it has more than {@link Original#LONGEST} bytes
     */
    public @Nullable EventLine next() throws IOException {
        Original.Builder kept = new Original.Builder();
        long begin = offset;
        int b = in.read();
        if (b == NO_MORE) {
            return null;
        }
        boolean blank = true;
        while (b != NO_MORE && b != '\n') {
            kept.add(b);
            blank &= b == ' ' || b == '\t' || b == '\r';
            b = in.read();
        }
        offset += kept.length() + (b == NO_MORE ? 0 : 1);
        number++;
        return new EventLine(number, begin, kept.build(), blank);
    }

    @Override
    public void close() throws IOException {
        in.close();
    }
}
