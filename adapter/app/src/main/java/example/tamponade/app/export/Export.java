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

/** Writes an export, a case at a time, so that its memory does not grow with what is on record. */
final class Export {

    private final RecordSearch search;
    private final GroupedCases cases;
    private final ExportLines lines;

    /** Exports from that record. */
    Export(RecordSearch search, GroupedCases cases, ExportLines lines) {
        this.search = search;
        this.cases = cases;
        this.lines = lines;
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
                List<FoundVersion> ofCase = search.ofCase(keys.get(i));
                // What belongs to several cases is written once; all else need not be remembered.
                List<FoundVersion> asked = ofCase.stream()
                        .filter(it -> isAskedFor(it, request))
                        .filter(it ->
                                !RecordSearch.SHARED.contains(it.type()) || written.add(it.type() + "/" + it.id()))
                        .toList();
                List<String> text =
                        request.isPseudonymised() ? lines.pseudonymised(keys.get(i), ofCase, asked) : lines.of(asked);
                for (int line = 0; line < text.size(); line++) {
                    files.add(asked.get(line).type(), text.get(line));
                }
            }
            return files.counts();
        } catch (IOException e) {
            throw new UncheckedIOException("the files cannot be written: " + e.getMessage(), e);
        }
    }

    private List<String> keys(ExportRequest request) {
        return switch (request.level()) {
            case SYSTEM -> cases.keysOfAll(request.compartment());
            case PATIENT -> cases.keys(CaseGroup.ALL, request.compartment());
            case GROUP -> cases.keys(Objects.requireNonNull(CaseGroup.of(request.group())), request.compartment());
        };
    }

    // When nobody knows since when it is on record, it may be new.
    private static boolean isAskedFor(FoundVersion version, ExportRequest request) {
        boolean isOfType = request.types().isEmpty() || request.types().contains(version.type());
        boolean isSince = version.storedAt().isEmpty() || version.storedAt().compareTo(request.since()) >= 0;
        return isOfType && isSince;
    }
}
