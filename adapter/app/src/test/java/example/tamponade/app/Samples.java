package example.tamponade.app;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The invented cases of the samples module. */
public final class Samples {

    /** Every case, by the name of its file. */
    public static final List<String> CASES = List.of("settled", "referred", "bled-again", "warnings", "messy");

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .build();

    private Samples() {}

    /** The events of a case as JSON lines. */
    public static byte[] events(String name) {
        return bytes("events/" + name + ".jsonl");
    }

    /** The results of a case, computed apart from this project's code. */
    public static JsonNode expected(String name) {
        return MAPPER.readTree(bytes("expected/" + name + ".json"));
    }

    /** Writes the events of a case to a file in the folder. */
    public static Path file(String name, Path folder) {
        try {
            return Files.write(folder.resolve(name + ".jsonl"), events(name));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** A file of the samples by its path. */
    public static byte[] bytes(String path) {
        try (InputStream in = Samples.class.getResourceAsStream("/example/tamponade/samples/" + path)) {
            return in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
