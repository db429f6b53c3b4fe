package example.tamponade.app.machine;

import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.Set;

/** The memory that the server needs, and its end when there is none left. */
public final class Memory {

    /** The smallest heap that the server starts with, in MiB: its limits of what is taken at once are made for it. */
    public static final int LEAST_MIB = 256;

    /** The exit code of a process that ran out of memory. */
    public static final int EXHAUSTED = 3;

    private static final int MIB = 1 << 20;

    // A collector keeps some of what it was given for itself.
    private static final double SHARE_KEPT = 0.1;

    private Memory() {}

    /**
     * Looks whether the heap is large enough for the server.
     *
     * @param greatest how many bytes it can grow to
     * @throws IllegalStateException when it is not, with the figures
     */
    static void demandEnough(long greatest) {
        if (greatest < LEAST_MIB * (1 - SHARE_KEPT) * MIB) {
            throw new IllegalStateException("the heap can grow to " + greatest / MIB
                    + " MiB; the server needs at least " + LEAST_MIB + " MiB: start it with -Xmx320m or more");
        }
    }

    /** What a server does first: it refuses a heap that is too small, and ends when there is no memory left. */
    public static void guard() {
        demandEnough(Runtime.getRuntime().maxMemory());
        watch();
    }

    /** From now on the process ends when one of its threads ends for lack of memory. */
    static void watch() {
        Thread.setDefaultUncaughtExceptionHandler((thread, failure) -> {
            endIfExhausted(failure);
            System.err.println("the thread " + thread.getName() + " ended: " + failure);
        });
    }

    /**
     * Ends the process if that failure is for lack of memory: half of it alive would answer some and lose others, while a
     * supervisor starts it again within seconds. What was acknowledged is in the ledger.
     */
    public static void endIfExhausted(Throwable failure) {
        Set<Throwable> seen = Collections.newSetFromMap(new IdentityHashMap<>());
        for (Throwable cause = failure; cause != null && seen.add(cause); cause = cause.getCause()) {
            if (cause instanceof OutOfMemoryError) {
                System.err.println(
                        "out of memory: the process ends, to be started again; what was acknowledged is in the"
                                + " ledger; give it more memory with -Xmx");
                Runtime.getRuntime().halt(EXHAUSTED);
            }
        }
    }
}
