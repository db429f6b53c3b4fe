package example.tamponade.profiles.build;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import example.tamponade.terminology.Imprint;
import java.nio.file.Path;
import java.util.List;

/**
 * Completes the examples. The folder says which profile an example is of, folder and file give its id:
 * {@code example/blood-loss/drape.json} is {@code blood-loss-drape}. A bundle names the examples it holds as
 * {@code {"example": "mother/known"}}.
 */
final class Examples {

    private static final int LONGEST_ID = 64;

    private final Imprint imprint;
    private final Path source;

    Examples(Imprint imprint, Path source) {
        this.imprint = imprint;
        this.source = source;
    }

    List<ObjectNode> all() {
        return Sources.files(source).stream().map(this::complete).toList();
    }

    private ObjectNode complete(Path file) {
        ObjectNode read = imprint.read(file);
        String profile = file.getName(file.getNameCount() - 2).toString();
        String id = profile + "-" + Sources.stem(file);
        if (id.length() > LONGEST_ID) {
            throw new IllegalArgumentException(file + ": the id " + id + " is longer than FHIR allows");
        }
        ObjectNode meta = Sources.JSON.createObjectNode();
        meta.putArray("profile").add(imprint.base() + "/StructureDefinition/" + profile);
        meta.setAll(read.withObjectProperty("meta"));

        ObjectNode complete = Sources.JSON.createObjectNode();
        complete.set("resourceType", read.required("resourceType"));
        complete.put("id", id);
        complete.set("meta", meta);
        complete.setAll((ObjectNode) read.without(List.of("resourceType", "meta")));
        for (JsonNode entry : complete.path("entry")) {
            JsonNode held = entry.path("resource").path("example");
            if (held.isTextual()) {
                ((ObjectNode) entry).set("resource", complete(source.resolve(held.asText() + ".json")));
            }
        }
        return complete;
    }
}
