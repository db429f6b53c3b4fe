package example.tamponade.app.intake;

import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Supplier;

/**
 * Has long pieces read one at a time. An event has a few hundred bytes; what is much longer can take a hundred times its
 * length in memory while it is read, and as many senders as there are could send it at once.
 */
public final class LongPieces {

    /** The most bytes of a piece that is not long. */
    public static final int SHORT = 16 << 10;

    private static final ReentrantLock READING = new ReentrantLock(true);

    private LongPieces() {}

    /** Does that reading, of a piece of so many bytes. */
    public static void read(int length, Runnable reading) {
        read(length, () -> {
            reading.run();
            return length;
        });
    }

    /** What that reading comes to, of a piece of so many bytes. */
    public static <T> T read(int length, Supplier<T> reading) {
        if (length <= SHORT) {
            return reading.get();
        }
        READING.lock();
        try {
            return reading.get();
        } finally {
            READING.unlock();
        }
    }
}
