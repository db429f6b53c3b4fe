package example.tamponade.profiles.build;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import example.tamponade.terminology.Imprint;
import java.nio.file.Path;
import java.util.List;

/**
 * Completes the hand-written profiles and extensions: imprint, what follows from the type, and a whole differential.
 *
 * <p>A source names its {@code rules}: files of elements shared by profiles of different parents. They come before its own.
 */
final class Differentials {

    private static final String R4 = "http://hl7.org/fhir/StructureDefinition/";

    private final Imprint imprint;
    private final Path source;

    Differentials(Imprint imprint, Path source) {
        this.imprint = imprint;
        this.source = source;
    }

    List<ObjectNode> all() {
        return Sources.files(source.resolve("StructureDefinition")).stream()
                .map(this::complete)
                .toList();
    }

    private ObjectNode complete(Path file) {
        ObjectNode read = imprint.read(file);
        if (!read.path("id").asText().equals(Sources.stem(file))) {
            throw new IllegalArgumentException(file + " holds " + read.path("id") + ": name the file as the artifact");
        }
        Elements elements = elements(read);
        ObjectNode type = type(read);
        ObjectNode profile = imprint.stamp(read);
        profile.setAll(type);
        if (type.required("type").asText().equals("Extension")) {
            elements.fixAddress(profile.required("url").asText());
        }
        profile.putObject("differential").set("element", elements.complete(profile));
        return profile;
    }

    private Elements elements(ObjectNode read) {
        Elements elements = new Elements(read.required("type").asText());
        for (JsonNode rule : read.path("rules")) {
            elements.add(imprint.read(source.resolve("rules/" + rule.asText() + ".json")));
        }
        return elements.add(read.required("differential"));
    }

    /** Takes out of the source what says which type it constrains, and completes it. */
    private ObjectNode type(ObjectNode read) {
        String type = read.required("type").asText();
        ObjectNode lines = Sources.JSON.createObjectNode();
        lines.put("fhirVersion", imprint.line("fhirVersion"));
        lines.put("kind", type.equals("Extension") ? "complex-type" : "resource");
        lines.put("abstract", read.path("abstract").asBoolean(false));
        if (read.has("context")) {
            lines.set("context", read.required("context"));
        }
        lines.put("type", type);
        lines.put("baseDefinition", read.path("baseDefinition").asText(R4 + type));
        lines.put("derivation", "constraint");
        read.remove(List.of("rules", "abstract", "context", "type", "baseDefinition", "differential"));
        return lines;
    }
}
