package example.tamponade.app.convert;

import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Reason;
import java.io.BufferedWriter;
import java.io.Closeable;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.json.JsonMapper;

/**
 * Keeps every refused line with its place and its reasons. A line that is not text is kept as Base64.
 */
final class RefusedFile implements Closeable {

    static final String NAME = "refused.ndjson";

    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    private final BufferedWriter writer;
    private long count;

    RefusedFile(Path folder) throws IOException {
        this.writer = Files.newBufferedWriter(folder.resolve(NAME), StandardCharsets.UTF_8);
    }

    synchronized long count() {
        return count;
    }

    void add(Path file, @Nullable Piece piece, List<Reason> reasons) throws IOException {
        Map<String, Object> entry = new LinkedHashMap<>();
        entry.put("file", String.valueOf(file.getFileName()));
        if (piece != null) {
            entry.put("place", piece.place());
            entry.put("byteLength", piece.original().length());
        }
        entry.put("reasons", reasons.stream().map(Reason::inJson).toList());
        if (piece != null) {
            put(entry, piece.original().bytes());
        }
        write(entry);
    }

    /** Keeps an event that was read, but is in no resource. */
    void add(String payload, Intake.Refused refused) throws IOException {
        Map<String, Object> entry = new LinkedHashMap<>();
        entry.put("reasons", refused.reasons().stream().map(Reason::inJson).toList());
        entry.put("text", payload);
        write(entry);
    }

    private synchronized void write(Map<String, Object> entry) throws IOException {
        writer.write(MAPPER.writeValueAsString(entry));
        writer.write('\n');
        count++;
    }

    private static void put(Map<String, Object> entry, byte[] bytes) {
        String text = new String(bytes, StandardCharsets.UTF_8);
        if (Arrays.equals(text.getBytes(StandardCharsets.UTF_8), bytes)) {
            entry.put("text", text);
        } else {
            entry.put("base64", Base64.getEncoder().encodeToString(bytes));
        }
    }

    @Override
    public void close() throws IOException {
        writer.close();
    }
}
