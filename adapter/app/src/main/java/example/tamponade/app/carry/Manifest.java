package example.tamponade.app.carry;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;

/**
 * What a folder holds that is carried.
 *
 * @param version of this form; 1
 * @param parts its files, in the order in which they are taken
 * @param ends up to which event of each case and facility, by its key, everything was carried with this folder and those
 *     before it
 */
public record Manifest(int version, List<Part> parts, Map<String, Long> ends) {

    /** The name of its file. */
    public static final String NAME = "manifest.json";

    static final int VERSION = 1;

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(SerializationFeature.INDENT_OUTPUT)
            .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
            .enable(DeserializationFeature.FAIL_ON_NULL_CREATOR_PROPERTIES)
            .build();

    /**
     * A file of events, one a line.
     *
     * @param name its name in the folder
     * @param events how many it holds
     * @param sha256 the SHA-256 of its bytes, lower-case hex
     */
    public record Part(String name, long events, String sha256) {}

    void write(Path folder) throws IOException {
        Files.writeString(folder.resolve(NAME), MAPPER.writeValueAsString(this));
    }

    /**
     * Reads the manifest of a folder.
     *
     * @throws DamagedFolderException when it is absent or no manifest
     * @throws IOException when it cannot be read
     */
    public static Manifest read(Path file) throws IOException {
        if (!Files.exists(file)) {
            throw new DamagedFolderException(List.of(file + " is missing: carry the folder again, whole"));
        }
        try {
            Manifest manifest = MAPPER.readValue(Files.readAllBytes(file), Manifest.class);
            if (manifest.version() == VERSION) {
                return manifest;
            }
            throw new DamagedFolderException(
                    List.of(file + " is of version " + manifest.version() + ", and this adapter knows version "
                            + VERSION + ": use an adapter of the same version as wrote it"));
        } catch (JacksonException e) {
            throw new DamagedFolderException(List.of(file + " is no manifest: carry the folder again, whole"));
        }
    }
}
