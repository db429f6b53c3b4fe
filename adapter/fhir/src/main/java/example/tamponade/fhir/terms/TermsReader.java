package example.tamponade.fhir.terms;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Coding;

/** Reads code systems and concept maps from the package. */
final class TermsReader {

    private static final String EVENT_PROPERTY = "/CodeSystem/event-property";
    private static final Set<String> SAME = Set.of("equal", "equivalent");

    private final Map<String, Map<String, String>> displays = new HashMap<>();
    private final Map<String, List<Coding>> standard = new HashMap<>();
    private final Map<String, String> properties = new HashMap<>();

    private TermsReader() {}

    static Terms read() {
        return new TermsReader().read(PublishedTerms.read());
    }

    private Terms read(PublishedTerms published) {
        published.all("CodeSystem").forEach(this::addSystem);
        published
                .all("ConceptMap")
                .flatMap(it -> PublishedTerms.elements(it, "group"))
                .forEach(this::addGroup);
        return new Terms(
                published.canonical(),
                published.version(),
                Map.copyOf(displays),
                Map.copyOf(standard),
                Map.copyOf(properties),
                published
                        .profiles()
                        .map(it -> it.substring(it.lastIndexOf('/') + 1))
                        .collect(Collectors.toUnmodifiableSet()));
    }

    private void addSystem(JsonNode system) {
        Map<String, String> codes = new HashMap<>();
        PublishedTerms.elements(system, "concept").forEach(it -> codes.put(code(it), text(it, "display")));
        displays.put(text(system, "url"), Map.copyOf(codes));
    }

    private void addGroup(JsonNode group) {
        String source = text(group, "source");
        String target = text(group, "target");
        PublishedTerms.elements(group, "element").forEach(element -> {
            String key = source + "|" + code(element);
            if (target.endsWith(EVENT_PROPERTY)) {
                properties.put(key, code(element.required("target").required(0)));
            } else {
                standard.merge(key, same(target, element), TermsReader::joined);
            }
        });
    }

    private static List<Coding> same(String system, JsonNode element) {
        return PublishedTerms.elements(element, "target")
                .filter(it -> SAME.contains(text(it, "equivalence")))
                .map(it -> new Coding(system, code(it), text(it, "display")))
                .toList();
    }

    private static String code(JsonNode concept) {
        return text(concept, "code");
    }

    private static String text(JsonNode node, String name) {
        return node.required(name).asText();
    }

    private static List<Coding> joined(List<Coding> some, List<Coding> more) {
        return Stream.concat(some.stream(), more.stream()).toList();
    }
}
