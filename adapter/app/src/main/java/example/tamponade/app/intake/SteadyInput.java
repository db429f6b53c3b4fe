package example.tamponade.app.intake;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.SocketTimeoutException;
import java.time.Duration;

/**
 * An input whose sender must get on. Only the time spent waiting for the sender counts, so that one who is held back by
 * this side is not blamed for it. The stream below must give up waiting now and then.
 */
public final class SteadyInput extends FilterInputStream {

    /** How many bytes earn another second. */
    public static final int BYTES_A_SECOND = 1024;

    private static final long EARNED = Duration.ofSeconds(1).toNanos() / BYTES_A_SECOND;

    private final long patience;
    private long waited;
    private long count;

    /**
     * Reads that stream.
     *
     * @param patience how long its sender is waited for however little comes
     */
    public SteadyInput(InputStream in, Duration patience) {
        super(in);
        this.patience = patience.toNanos();
    }

    /** Begins anew: what comes now is another input of the same stream. */
    public void begin() {
        waited = 0;
        count = 0;
    }

    /**
     * The next byte.
     *
     * @throws TooSlowException when it was waited for too long
     */
    @Override
    public int read() throws IOException {
        byte[] one = new byte[1];
        return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
    }

    /**
     * The next bytes.
     *
     * @throws TooSlowException when they were waited for too long
     */
    @Override
    public int read(byte[] bytes, int offset, int length) throws IOException {
        demandProgress();
        long begin = System.nanoTime();
        try {
            int read = super.read(bytes, offset, length);
            count += Math.max(read, 0);
            return read;
        } catch (IOException e) {
            // A web server wraps it.
            if (e instanceof SocketTimeoutException || e.getCause() instanceof SocketTimeoutException) {
                waited = patience + count * EARNED;
                throw new TooSlowException(count);
            }
            throw e;
        } finally {
            waited += System.nanoTime() - begin;
        }
    }

    private void demandProgress() throws TooSlowException {
        if (waited > patience + count * EARNED) {
            throw new TooSlowException(count);
        }
    }
}
