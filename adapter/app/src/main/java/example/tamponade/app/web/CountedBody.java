package example.tamponade.app.web;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/** A body whose bytes are counted, and no more read than allowed. */
final class CountedBody extends FilterInputStream {

    private final long longest;
    private volatile long count;

    CountedBody(InputStream in, long longest) {
        super(in);
        this.longest = longest;
    }

    long count() {
        return count;
    }

    @Override
    public int read() throws IOException {
        int b = super.read();
        add(b < 0 ? 0 : 1);
        return b;
    }

    @Override
    public int read(byte[] bytes, int offset, int length) throws IOException {
        int read = super.read(bytes, offset, length);
        add(Math.max(read, 0));
        return read;
    }

    @SuppressWarnings("NonAtomicVolatileUpdate") // One thread counts, others look on.
    private void add(int more) throws InputTooLongException {
        count += more;
        if (count > longest) {
            throw new InputTooLongException(longest);
        }
    }
}
