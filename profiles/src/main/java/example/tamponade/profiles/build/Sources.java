package example.tamponade.profiles.build;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import example.tamponade.terminology.Imprint;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** Where the build finds its files. */
final class Sources {

    static final ObjectMapper JSON = new ObjectMapper();

    private Sources() {}

    /** The published terminology, from the class path: a jar, or a folder while the whole project is built. */
    static List<ObjectNode> terminology() throws IOException {
        URL imprint = Imprint.class.getResource("imprint.json");
        if (imprint == null) {
            throw new IllegalStateException("the terminology is not on the class path");
        }
        try {
            if (!imprint.getProtocol().equals("jar")) {
                return resources(Path.of(imprint.toURI()).resolveSibling(""));
            }
            try (FileSystem jar = FileSystems.newFileSystem(imprint.toURI(), Map.of())) {
                return resources(jar.getPath("example/tamponade/terminology"));
            }
        } catch (URISyntaxException e) {
            throw new IllegalStateException("no address: " + imprint, e);
        }
    }

    private static List<ObjectNode> resources(Path folder) throws IOException {
        return Stream.of("CodeSystem", "ValueSet", "ConceptMap")
                .flatMap(type -> files(folder.resolve(type)).stream())
                .map(Sources::read)
                .toList();
    }

    /** The JSON files below a folder, in the order of their paths. */
    static List<Path> files(Path folder) {
        try (Stream<Path> files = Files.walk(folder)) {
            return files.filter(file -> file.toString().endsWith(".json"))
                    .sorted()
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(folder + " is not readable", e);
        }
    }

    /** The name of a file without its ending. */
    static String stem(Path file) {
        String name = file.getFileName().toString();
        return name.substring(0, name.length() - ".json".length());
    }

    private static ObjectNode read(Path file) {
        try {
            return (ObjectNode) JSON.readTree(Files.readString(file));
        } catch (IOException e) {
            throw new UncheckedIOException(file + " is not readable", e);
        }
    }
}
