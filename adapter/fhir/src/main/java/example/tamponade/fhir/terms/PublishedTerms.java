package example.tamponade.fhir.terms;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import example.tamponade.profiles.RecordPackage;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;

/** The terminology and the forms of the published package, as JSON: quicker to read than as FHIR objects. */
final class PublishedTerms {

    private final JsonNode all;

    private PublishedTerms(JsonNode all) {
        this.all = all;
    }

    static PublishedTerms read() {
        try (InputStream in = RecordPackage.class.getResourceAsStream(RecordPackage.TERMS)) {
            return new PublishedTerms(new ObjectMapper().readTree(Objects.requireNonNull(in, RecordPackage.TERMS)));
        } catch (IOException e) {
            throw new UncheckedIOException(RecordPackage.TERMS + " is not readable", e);
        }
    }

    String canonical() {
        return all.required("canonical").asText();
    }

    String version() {
        return all.required("version").asText();
    }

    /** The addresses of the profiles. */
    Stream<String> profiles() {
        return all.required("profiles").propertyStream().map(Map.Entry::getKey);
    }

    /** The resources of a type, for example {@code CodeSystem}. */
    Stream<JsonNode> all(String type) {
        return elements(all, "resources")
                .filter(it -> it.required("resourceType").asText().equals(type));
    }

    /** The elements of an array; none where it is absent. */
    static Stream<JsonNode> elements(JsonNode parent, String name) {
        return parent.path(name).valueStream();
    }
}
