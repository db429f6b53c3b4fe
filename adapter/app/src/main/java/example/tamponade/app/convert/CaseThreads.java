package example.tamponade.app.convert;

import java.io.IOException;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;

/** Works on several cases at a time, one a processor. */
final class CaseThreads {

    private CaseThreads() {}

    /**
     * Does all of the work, whatever becomes of a part of it.
     *
     * @throws IOException as the first part that failed did
     */
    static void all(List<Callable<Void>> work) throws IOException {
        ExecutorService threads =
                Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors(), CaseThreads::thread);
        try {
            for (Future<Void> part : threads.invokeAll(work)) {
                part.get();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("interrupted before everything was written", e);
        } catch (ExecutionException e) {
            throw rethrown(Objects.requireNonNull(e.getCause()));
        } finally {
            threads.shutdownNow();
        }
    }

    private static IOException rethrown(Throwable cause) {
        if (cause instanceof RuntimeException failure) {
            throw failure;
        }
        if (cause instanceof Error failure) {
            throw failure;
        }
        return (IOException) cause;
    }

    private static Thread thread(Runnable work) {
        Thread thread = new Thread(work, "convert");
        thread.setDaemon(true);
        // The FHIR library finds parts of itself by the thread's class loader; in an executable jar the default one
        // does
        // not see them.
        thread.setContextClassLoader(CaseThreads.class.getClassLoader());
        return thread;
    }
}
