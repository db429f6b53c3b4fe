package example.tamponade.app.export;

import example.tamponade.app.search.FoundVersion;
import example.tamponade.app.search.RecordSearch;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.function.Function;

/** Writes an export, a case at a time, so that its memory does not grow with what is on record. */
final class Export {

    private final RecordSearch search;
    private final GroupedCases cases;
    private final Function<FoundVersion, String> line;

    /**
     * Exports from that record.
     *
     * @param line a resource as it is written
     */
    Export(RecordSearch search, GroupedCases cases, Function<FoundVersion, String> line) {
        this.search = search;
        this.cases = cases;
        this.line = line;
    }

    /**
     * Writes the files.
     *
     * @param progress told how many cases of how many are written
     * @return how many resources of each type
     */
    Map<String, Long> write(ExportRequest request, Path folder, BiConsumer<Integer, Integer> progress) {
        List<String> keys = keys(request);
        Set<String> written = new HashSet<>();
        try (ExportFiles files = new ExportFiles(folder)) {
            for (int i = 0; i < keys.size(); i++) {
                progress.accept(i, keys.size());
                for (FoundVersion version : search.ofCase(keys.get(i))) {
                    // What belongs to several cases is written once; all else need not be remembered.
                    boolean isNew = !RecordSearch.SHARED.contains(version.type())
                            || written.add(version.type() + "/" + version.id());
                    if (isNew && isAskedFor(version, request)) {
                        files.add(version.type(), line.apply(version));
                    }
                }
            }
            return files.counts();
        } catch (IOException e) {
            throw new UncheckedIOException("the files cannot be written: " + e.getMessage(), e);
        }
    }

    private List<String> keys(ExportRequest request) {
        return switch (request.level()) {
            case SYSTEM -> cases.keysOfAll();
            case PATIENT -> cases.keys(CaseGroup.ALL);
            case GROUP -> cases.keys(Objects.requireNonNull(CaseGroup.of(request.group())));
        };
    }

    // When nobody knows since when it is on record, it may be new.
    private static boolean isAskedFor(FoundVersion version, ExportRequest request) {
        boolean isOfType = request.types().isEmpty() || request.types().contains(version.type());
        boolean isSince = version.storedAt().isEmpty() || version.storedAt().compareTo(request.since()) >= 0;
        return isOfType && isSince;
    }
}
