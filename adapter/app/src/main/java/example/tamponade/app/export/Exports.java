package example.tamponade.app.export;

import example.tamponade.app.access.Caller;
import example.tamponade.app.database.Instants;
import example.tamponade.app.database.OwnersFolder;
import example.tamponade.app.search.RecordSearch;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.context.SmartLifecycle;
import tools.jackson.databind.json.JsonMapper;

/**
 * Exports, one after the other, each in a folder of its own: what was asked for, the files, and behind them what it has
 * brought. One that a stop of the server has cut off begins anew at its start.
 */
public final class Exports implements SmartLifecycle {

    /** How many are kept at a time. */
    public static final int MOST = 20;

    /** For how long files are kept. */
    public static final Duration KEPT = Duration.ofHours(24);

    private static final Logger LOG = LoggerFactory.getLogger(Exports.class);
    private static final JsonMapper JSON = JsonMapper.builder().build();

    private static final String REQUEST = "request.json";
    private static final String MANIFEST = "manifest.json";
    private static final String PROBLEM = "problem.txt";

    // A version is dated before its commit: what is under way now may have an earlier time than what is read.
    private static final Duration UNDER_WAY = Duration.ofMinutes(1);

    private final Path folder;
    private final Export export;
    private final Clock clock;
    private final Map<String, String> progress = new ConcurrentHashMap<>();
    private @Nullable ExecutorService worker;

    /**
     * Exports from that record.
     *
     * @param folder where the files are kept
     * @param lines how resources are written
     */
    public Exports(Path folder, RecordSearch search, GroupedCases cases, ExportLines lines, Clock clock) {
        this.folder = folder;
        this.export = new Export(search, cases, lines);
        this.clock = clock;
    }

    @Override
    public synchronized void start() {
        worker = Executors.newSingleThreadExecutor(work -> {
            Thread thread = new Thread(work, "export");
            thread.setDaemon(true);
            return thread;
        });
        ids().filter(it -> !isFinished(it)).forEach(this::run);
    }

    @Override
    public synchronized void stop() {
        if (worker != null) {
            worker.shutdownNow();
            worker = null;
        }
    }

    @Override
    public synchronized boolean isRunning() {
        return worker != null;
    }

    /**
     * Takes an export; it is written when those before it are.
     *
     * @return its id
     * @throws TooManyExportsException when more wait than are kept
     */
    public synchronized String take(ExportRequest request) {
        deleteExpired();
        if (ids().count() >= MOST) {
            throw new TooManyExportsException(MOST);
        }
        String id = UUID.randomUUID().toString();
        try {
            Path own = OwnersFolder.make(OwnersFolder.make(folder).resolve(id));
            Files.writeString(own.resolve(REQUEST), JSON.writeValueAsString(request));
        } catch (IOException e) {
            throw new UncheckedIOException("the export cannot be kept: " + e.getMessage(), e);
        }
        run(id);
        return id;
    }

    private void run(String id) {
        progress.put(id, "waiting");
        if (worker != null) {
            worker.execute(() -> write(id));
        }
    }

    private void write(String id) {
        Path own = folder.resolve(id);
        try {
            ExportRequest request = request(own);
            String time = Instants.text(clock.instant().minus(UNDER_WAY));
            Map<String, Long> counts = export.write(
                    request, own, (done, all) -> progress.put(id, done + " of " + all + " cases are written"));
            List<Manifest.File> output = counts.entrySet().stream()
                    .map(it -> new Manifest.File(
                            it.getKey(),
                            address(request.base(), id) + "/" + it.getKey() + ExportFiles.ENDING,
                            it.getValue()))
                    .toList();
            finish(
                    own.resolve(MANIFEST),
                    JSON.writeValueAsString(new Manifest(time, request.request(), true, output, List.of())));
        } catch (IOException | RuntimeException e) {
            failed(id, own, e);
        } finally {
            progress.remove(id);
        }
    }

    private void failed(String id, Path own, Exception e) {
        boolean isGone = !Files.exists(own) || Thread.currentThread().isInterrupted();
        if (isGone) {
            return;
        }
        LOG.error("export {} failed", id, e);
        try {
            finish(own.resolve(PROBLEM), "the export failed: " + e.getMessage());
        } catch (IOException again) {
            LOG.error("export {} cannot be marked as failed", id, again);
        }
    }

    // Whole or not there, whenever the server is stopped.
    private static void finish(Path file, String text) throws IOException {
        Path part = Files.writeString(file.resolveSibling(file.getFileName() + ".part"), text);
        Files.move(part, file);
    }

    /** Where the export of that id is told of. */
    public static String address(String base, String id) {
        return base + "/exports/" + id;
    }

    /** How somebody's export stands; null when he has none of that id, or none any more. */
    public @Nullable ExportState state(String id, Caller caller) {
        return isOf(id, caller) ? state(id) : null;
    }

    private boolean isOf(String id, Caller caller) {
        Path own = own(id);
        return own != null && request(own).owner().equals(caller.name());
    }

    private static ExportRequest request(Path own) {
        try {
            return JSON.readValue(Files.readString(own.resolve(REQUEST)), ExportRequest.class);
        } catch (IOException e) {
            throw new UncheckedIOException("the export cannot be read: " + e.getMessage(), e);
        }
    }

    private @Nullable ExportState state(String id) {
        deleteExpired();
        Path own = own(id);
        if (own == null) {
            return null;
        }
        try {
            if (Files.exists(own.resolve(MANIFEST))) {
                Manifest manifest = JSON.readValue(Files.readString(own.resolve(MANIFEST)), Manifest.class);
                return new ExportState.Done(manifest, expires(own));
            }
            if (Files.exists(own.resolve(PROBLEM))) {
                return new ExportState.Failed(Files.readString(own.resolve(PROBLEM)));
            }
            return new ExportState.Running(progress.getOrDefault(id, "waiting"));
        } catch (IOException e) {
            throw new UncheckedIOException("the export cannot be read: " + e.getMessage(), e);
        }
    }

    /** A file of somebody's finished export; null when there is none. */
    public @Nullable Path file(String id, String name, Caller caller) {
        boolean isThere = state(id, caller) instanceof ExportState.Done done
                && done.manifest().output().stream().anyMatch(it -> (it.type() + ExportFiles.ENDING).equals(name));
        return isThere ? folder.resolve(id).resolve(name) : null;
    }

    /** Stops somebody's export, or deletes its files; false when he has none of that id. */
    public synchronized boolean delete(String id, Caller caller) {
        Path own = own(id);
        if (own == null || !isOf(id, caller)) {
            return false;
        }
        delete(own);
        return true;
    }

    private synchronized void deleteExpired() {
        ids().map(folder::resolve)
                .filter(it -> isFinished(it.getFileName().toString()))
                .filter(it -> expires(it).isBefore(clock.instant()))
                .forEach(Exports::delete);
    }

    private static Instant expires(Path own) {
        try {
            Path end = Files.exists(own.resolve(MANIFEST)) ? own.resolve(MANIFEST) : own.resolve(PROBLEM);
            return Files.getLastModifiedTime(end).toInstant().plus(KEPT);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void delete(Path own) {
        try (Stream<Path> files = Files.walk(own)) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.deleteIfExists(file);
            }
        } catch (IOException e) {
            throw new UncheckedIOException("the export cannot be deleted: " + e.getMessage(), e);
        }
    }

    private boolean isFinished(String id) {
        Path own = folder.resolve(id);
        return Files.exists(own.resolve(MANIFEST)) || Files.exists(own.resolve(PROBLEM));
    }

    private @Nullable Path own(String id) {
        boolean isId = id.matches("[0-9a-f-]{36}");
        Path own = isId ? folder.resolve(id) : null;
        return own != null && Files.exists(own.resolve(REQUEST)) ? own : null;
    }

    private Stream<String> ids() {
        if (!Files.isDirectory(folder)) {
            return Stream.of();
        }
        try (Stream<Path> all = Files.list(folder)) {
            return all.map(it -> it.getFileName().toString()).filter(it -> own(it) != null).sorted().toList().stream();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
