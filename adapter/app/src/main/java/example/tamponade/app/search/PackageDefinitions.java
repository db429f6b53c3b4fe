package example.tamponade.app.search;

import example.tamponade.profiles.RecordPackage;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.stream.StreamSupport;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What the package defines that searches name: its value sets, search parameters and profiles. */
public final class PackageDefinitions {

    private PackageDefinitions() {}

    private static JsonNode read() {
        try (InputStream in = Objects.requireNonNull(RecordPackage.class.getResourceAsStream(RecordPackage.TERMS))) {
            return JsonMapper.builder().build().readTree(in);
        } catch (IOException e) {
            throw new UncheckedIOException(RecordPackage.TERMS + " is not readable", e);
        }
    }

    /** The definitions of a type, for example {@code ValueSet}. */
    public static List<JsonNode> all(String type) {
        return StreamSupport.stream(read().required("resources").spliterator(), false)
                .filter(it -> it.required("resourceType").asString().equals(type))
                .toList();
    }

    /** The type of resource of each profile, by the profile's address. */
    public static Map<String, String> profiles() {
        Map<String, String> types = new TreeMap<>();
        read().required("profiles")
                .properties()
                .forEach(it -> types.put(it.getKey(), it.getValue().asString()));
        return types;
    }
}
