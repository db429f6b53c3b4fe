package example.tamponade.app.export;

import java.io.BufferedWriter;
import java.io.Closeable;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;

/** The files of one export under way: one a type, one resource a line. */
final class ExportFiles implements Closeable {

    static final String ENDING = ".ndjson";

    private final Path folder;
    private final Map<String, BufferedWriter> writers = new TreeMap<>();
    private final Map<String, Long> counts = new TreeMap<>();

    ExportFiles(Path folder) {
        this.folder = folder;
    }

    void add(String type, String line) throws IOException {
        BufferedWriter writer = writers.get(type);
        if (writer == null) {
            writer = Files.newBufferedWriter(folder.resolve(type + ENDING), StandardCharsets.UTF_8);
            writers.put(type, writer);
        }
        writer.write(line);
        writer.write('\n');
        counts.merge(type, 1L, Long::sum);
    }

    /** How many resources of each type were written. */
    Map<String, Long> counts() {
        return counts;
    }

    @Override
    public void close() throws IOException {
        for (BufferedWriter writer : writers.values()) {
            writer.close();
        }
    }
}
