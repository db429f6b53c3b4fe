package example.tamponade.terminology;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/**
 * Publishes the source files as complete resources. Each code system of ours also gets the value set of all its codes,
 * under the same id, unless a file says otherwise.
 */
public final class TerminologyBuild {

    private static final ObjectMapper JSON = new ObjectMapper();

    private final Imprint imprint;
    private final Path source;
    private final Path target;

    private TerminologyBuild(Imprint imprint, Path source, Path target) {
        this.imprint = imprint;
        this.source = source;
        this.target = target;
    }

    /** Arguments: source folder, classes folder, version, timestamp of the build. */
    public static void main(String[] args) throws IOException {
        new TerminologyBuild(
                        Imprint.of(args[2], args[3]),
                        Path.of(args[0]),
                        Path.of(args[1]).resolve("example/tamponade/terminology"))
                .run();
    }

    private void run() throws IOException {
        for (Path file : sources("CodeSystem")) {
            ObjectNode codeSystem = codeSystem(checked(file));
            write(codeSystem);
            boolean whole = codeSystem.required("content").asText().equals("complete");
            if (whole && !Files.exists(source.resolve("ValueSet").resolve(file.getFileName()))) {
                write(valueSetOfAll(codeSystem));
            }
        }
        for (Path file : sources("ValueSet")) {
            write(imprint.stamp(checked(file)));
        }
        for (Path file : sources("ConceptMap")) {
            write(imprint.stamp(checked(file)));
        }
    }

    private ObjectNode codeSystem(ObjectNode read) {
        ObjectNode concepts = JSON.createObjectNode();
        String content = read.path("content").asText("complete");
        if (!content.equals("supplement")) {
            concepts.put("caseSensitive", true);
        }
        concepts.put("content", content);
        concepts.put("count", read.required("concept").size());
        concepts.set("concept", read.required("concept"));
        return imprint.stamp(read.without(List.of("content", "concept"))).setAll(concepts);
    }

    private ObjectNode valueSetOfAll(ObjectNode codeSystem) {
        ObjectNode all = JSON.createObjectNode();
        all.put("resourceType", "ValueSet").set("id", codeSystem.required("id"));
        all.set("title", codeSystem.required("title"));
        all.put(
                "description",
                "All codes. " + codeSystem.required("description").asText());
        all.putObject("compose").putArray("include").addObject().set("system", codeSystem.required("url"));
        return imprint.stamp(all);
    }

    private ObjectNode checked(Path file) {
        ObjectNode read = imprint.read(file);
        String expected =
                read.path("resourceType").asText() + "/" + read.path("id").asText() + ".json";
        if (!file.endsWith(expected)) {
            throw new IllegalArgumentException(file + " holds " + expected + ": name the file as the artifact");
        }
        return read;
    }

    private List<Path> sources(String type) throws IOException {
        try (Stream<Path> files = Files.list(source.resolve(type))) {
            return files.sorted().toList();
        }
    }

    private void write(ObjectNode resource) throws IOException {
        Path file = target.resolve(resource.required("resourceType").asText())
                .resolve(resource.required("id").asText() + ".json");
        Files.createDirectories(file.getParent());
        Files.writeString(file, JSON.writerWithDefaultPrettyPrinter().writeValueAsString(resource) + "\n");
    }
}
