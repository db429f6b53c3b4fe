package example.tamponade.fhir.conformance;

import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.Function;

/** Spreads work over the processors. */
final class Workers {

    private static final ExecutorService THREADS =
            Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors(), work -> {
                Thread thread = new Thread(work, "conformance");
                thread.setDaemon(true);
                // The library finds parts of itself by the thread's class loader; in an executable jar the default one
                // does not see them.
                thread.setContextClassLoader(Workers.class.getClassLoader());
                return thread;
            });

    private Workers() {}

    /** Does the work on each; the results in their order. A single one is done by the caller. */
    static <T, R> List<R> all(List<T> items, Function<T, R> work) {
        if (items.size() == 1) {
            return List.of(work.apply(items.get(0)));
        }
        List<CompletableFuture<R>> results = items.stream()
                .map(it -> CompletableFuture.supplyAsync(() -> work.apply(it), THREADS))
                .toList();
        return results.stream().map(CompletableFuture::join).toList();
    }
}
