package example.tamponade.profiles.build;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import example.tamponade.terminology.Imprint;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Completes the implementation guide. Its source lists the profiles, extensions, forms and search parameters in reading order; terminology
 * and examples are added here. An artifact that it does not list stops the build.
 */
final class Guide {

    private static final String ID = "example.tamponade.records";

    private final Imprint imprint;
    private final Path source;

    Guide(Imprint imprint, Path source) {
        this.imprint = imprint;
        this.source = source;
    }

    ObjectNode listing(List<ObjectNode> artifacts, List<ObjectNode> terminology, List<ObjectNode> examples) {
        ObjectNode read = imprint.read(source.resolve("ImplementationGuide/" + ID + ".json"));
        Map<String, ObjectNode> unlisted = new LinkedHashMap<>();
        artifacts.forEach(artifact -> unlisted.put(reference(artifact), artifact));

        ArrayNode listed = (ArrayNode) read.required("definition").required("resource");
        for (JsonNode line : listed) {
            String reference = line.required("reference").required("reference").asText();
            ObjectNode artifact = unlisted.remove(reference);
            if (artifact == null) {
                throw new IllegalArgumentException("the guide lists " + reference + " twice, or there is none");
            }
            describe((ObjectNode) line, artifact);
            ((ObjectNode) line).put("exampleBoolean", false);
        }
        if (!unlisted.isEmpty()) {
            throw new IllegalArgumentException("the guide does not list " + unlisted.keySet());
        }
        terminology.forEach(resource ->
                describe(line(listed, "terminology", resource), resource).put("exampleBoolean", false));
        examples.forEach(example -> line(listed, "examples", example)
                .put("name", example.required("id").asText())
                .set(
                        "exampleCanonical",
                        example.required("meta").required("profile").get(0)));

        ObjectNode guide = imprint.stamp(read);
        guide.put("packageId", imprint.line("packageId"));
        guide.putArray("fhirVersion").add(imprint.line("fhirVersion"));
        guide.set("definition", guide.remove("definition"));
        return guide;
    }

    private static ObjectNode line(ArrayNode lines, String group, ObjectNode resource) {
        ObjectNode line = lines.addObject();
        line.putObject("reference").put("reference", reference(resource));
        return line.put("groupingId", group);
    }

    private static ObjectNode describe(ObjectNode line, ObjectNode artifact) {
        line.set("name", artifact.required(artifact.has("title") ? "title" : "name"));
        line.set("description", artifact.required("description"));
        return line;
    }

    private static String reference(ObjectNode resource) {
        return resource.required("resourceType").asText() + "/"
                + resource.required("id").asText();
    }
}
