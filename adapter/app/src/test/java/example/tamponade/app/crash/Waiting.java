package example.tamponade.app.crash;

import java.time.Duration;
import java.util.function.BooleanSupplier;

/** Waiting for what comes by itself. */
public final class Waiting {

    private Waiting() {}

    /** Returns when it holds. */
    public static void until(Duration longest, String what, BooleanSupplier holds) {
        long end = System.nanoTime() + longest.toNanos();
        while (!holds.getAsBoolean()) {
            if (System.nanoTime() > end) {
                throw new IllegalStateException("not within " + longest.toSeconds() + " s: " + what);
            }
            pause(100);
        }
    }

    /** Waits that many milliseconds. */
    static void pause(long milliseconds) {
        try {
            Thread.sleep(milliseconds);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }
}
