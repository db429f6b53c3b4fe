package example.tamponade.app.search;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.RuntimeSearchParam;
import example.tamponade.app.intake.Piece;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Properties;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** What each type of resource can be searched by: of what FHIR R4 and our package define, what the record has. */
public final class SearchParameters {

    private static final List<String> OF_ALL = List.of("_profile", "_security", "_tag");

    // Changes whenever the index is written in another way.
    private static final String WRITTEN = "1";

    private static final SearchParameters STANDARD = read();

    private final Map<String, Map<String, SearchParameter>> byType;
    private final Map<String, Map<String, Element>> elements = new TreeMap<>();

    /** An element that the index holds, with what its values are; several parameters may look at one. */
    record Element(ElementPath path, SearchParameter.Kind kind) {}

    private SearchParameters(Map<String, Map<String, SearchParameter>> byType) {
        this.byType = byType;
        byType.forEach((type, parameters) -> {
            Map<String, Element> ofType = new LinkedHashMap<>();
            parameters
                    .values()
                    .forEach(parameter -> parameter
                            .paths()
                            .forEach(it -> ofType.putIfAbsent(it.key(), new Element(it, parameter.kind()))));
            elements.put(type, ofType);
        });
    }

    /** The parameters of this version. */
    public static SearchParameters standard() {
        return STANDARD;
    }

    private static SearchParameters read() {
        FhirContext fhir = FhirContext.forR4Cached();
        List<JsonNode> ours = PackageDefinitions.all("SearchParameter");
        Map<String, Map<String, SearchParameter>> byType = new TreeMap<>();
        Properties names = names();
        names.stringPropertyNames().forEach(type -> {
            Map<String, SearchParameter> ofType = new LinkedHashMap<>();
            Stream.concat(OF_ALL.stream(), Stream.of(names.getProperty(type).split(",")))
                    .forEach(name -> ofType.put(name, defined(fhir, type, name, ours)));
            byType.put(type, Collections.unmodifiableMap(ofType));
        });
        return new SearchParameters(byType);
    }

    private static Properties names() {
        Properties names = new Properties();
        try (InputStream in =
                Objects.requireNonNull(SearchParameters.class.getResourceAsStream("parameters.properties"))) {
            names.load(new InputStreamReader(in, StandardCharsets.UTF_8));
            return names;
        } catch (IOException e) {
            throw new UncheckedIOException("parameters.properties is not readable", e);
        }
    }

    private static SearchParameter defined(FhirContext fhir, String type, String name, List<JsonNode> ours) {
        RuntimeSearchParam standard = fhir.getResourceDefinition(type).getSearchParam(name);
        if (standard != null) {
            return parameter(
                    fhir,
                    type,
                    name,
                    standard.getParamType().getCode(),
                    Objects.requireNonNull(standard.getUri()),
                    String.valueOf(standard.getDescription()),
                    standard.getPath());
        }
        return ours.stream()
                .filter(it -> it.required("code").asString().equals(name)
                        && it.required("base").required(0).asString().equals(type))
                .map(it -> parameter(
                        fhir,
                        type,
                        name,
                        it.required("type").asString(),
                        it.required("url").asString(),
                        it.required("description").asString(),
                        it.required("expression").asString()))
                .findFirst()
                .orElseThrow(() -> new IllegalStateException("nobody defines the search " + type + "." + name));
    }

    private static SearchParameter parameter(
            FhirContext fhir, String type, String name, String kind, String uri, String description, String path) {
        return new SearchParameter(
                name,
                SearchParameter.Kind.valueOf(kind.toUpperCase(Locale.ROOT)),
                uri,
                description,
                ElementPath.of(fhir, type, path));
    }

    /** The types of resources that can be searched for. */
    public Set<String> types() {
        return byType.keySet();
    }

    /** The parameters of a type, by name; none for a type that is not served. */
    public Map<String, SearchParameter> of(String type) {
        return byType.getOrDefault(type, Map.of());
    }

    /** The time that resources of a type are ordered by: the first that is named; null when they have none. */
    @Nullable
    SearchParameter time(String type) {
        return of(type).values().stream()
                .filter(it -> it.kind() == SearchParameter.Kind.DATE)
                .findFirst()
                .orElse(null);
    }

    /** Whether resources of a type have times beside that one. */
    boolean hasFurtherTimes(String type) {
        return of(type).values().stream()
                        .filter(it -> it.kind() == SearchParameter.Kind.DATE)
                        .count()
                > 1;
    }

    /** What the index holds of a type. */
    Collection<Element> elements(String type) {
        return elements.getOrDefault(type, Map.of()).values();
    }

    /** The same as long as resources are indexed alike. */
    String digest() {
        return Piece.digest((WRITTEN + byType).getBytes(StandardCharsets.UTF_8));
    }
}
