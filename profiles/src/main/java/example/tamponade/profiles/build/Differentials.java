package example.tamponade.profiles.build;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import example.tamponade.terminology.Imprint;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Completes the hand-written profiles and extensions to whole differentials.
 *
 * <p>A source names its {@code rules}: files of elements shared by profiles of different parents. An element is written
 * by its {@code id}; path and slice name follow from it. A binding is required and a constraint is an error unless it
 * says otherwise. An extension's address is fixed, and it has no inner extensions unless it names some.
 */
final class Differentials {

    private static final Pattern CODES = Pattern.compile("\\{codes:([a-z0-9-]+)}");

    private final Imprint imprint;
    private final Path source;
    private final List<ObjectNode> terminology;

    Differentials(Imprint imprint, Path source, List<ObjectNode> terminology) {
        this.imprint = imprint;
        this.source = source;
        this.terminology = terminology;
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
        String type = read.required("type").asText();
        boolean extension = type.equals("Extension");

        Map<String, ObjectNode> elements = new LinkedHashMap<>();
        for (JsonNode rule : read.path("rules")) {
            merge(elements, imprint.read(source.resolve("rules/" + rule.asText() + ".json")), type);
        }
        merge(elements, (ObjectNode) read.path("differential"), type);

        ObjectNode tail = Sources.JSON.createObjectNode();
        tail.put("fhirVersion", imprint.line("fhirVersion"));
        tail.put("kind", extension ? "complex-type" : "resource");
        tail.put("abstract", read.path("abstract").asBoolean(false));
        if (read.has("context")) {
            tail.set("context", read.required("context"));
        }
        tail.put("type", type);
        String parent = "http://hl7.org/fhir/StructureDefinition/" + type;
        tail.put("baseDefinition", read.path("baseDefinition").asText(parent));
        tail.put("derivation", "constraint");
        read.remove(List.of("rules", "abstract", "context", "type", "baseDefinition", "differential"));

        ObjectNode stamped = imprint.stamp(read);
        stamped.setAll(tail);
        if (extension) {
            fixAddress(elements, stamped.required("url").asText());
        }
        ArrayNode differential = stamped.putObject("differential").putArray("element");
        elements.values().forEach(element -> differential.add(complete(element, stamped)));
        return stamped;
    }

    /** Later lines on the same element add to the earlier ones and win over them. */
    private static void merge(Map<String, ObjectNode> elements, ObjectNode holder, String type) {
        for (JsonNode element : holder.required("element")) {
            ObjectNode own = element.deepCopy();
            own.put("id", own.required("id").asText().replace("{type}", type));
            elements.merge(own.required("id").asText(), own, Differentials::merge);
        }
    }

    private static ObjectNode merge(ObjectNode before, ObjectNode after) {
        ArrayNode constraints = Sources.JSON.createArrayNode();
        before.path("constraint").forEach(constraints::add);
        after.path("constraint").forEach(constraints::add);
        before.setAll(after);
        return constraints.isEmpty() ? before : before.set("constraint", constraints);
    }

    private static void fixAddress(Map<String, ObjectNode> elements, String url) {
        if (elements.keySet().stream().noneMatch(id -> id.startsWith("Extension.extension"))) {
            elements.put("Extension.extension", element("Extension.extension").put("max", "0"));
        }
        elements.put("Extension.url", element("Extension.url").put("fixedUri", url));
    }

    private static ObjectNode element(String id) {
        return Sources.JSON.createObjectNode().put("id", id);
    }

    private ObjectNode complete(ObjectNode element, ObjectNode profile) {
        String id = element.required("id").asText();
        ObjectNode complete = element(id).put("path", id.replaceAll(":[^.]+", ""));
        String last = id.substring(id.lastIndexOf('.') + 1);
        if (last.contains(":")) {
            complete.put("sliceName", last.substring(last.indexOf(':') + 1));
        }
        for (JsonNode constraint : element.path("constraint")) {
            ObjectNode own = (ObjectNode) constraint;
            own.put("severity", own.path("severity").asText("error"));
            own.put("expression", withCodes(own.required("expression").asText()));
            own.set("source", profile.required("url"));
        }
        if (element.has("binding") && !element.path("binding").has("strength")) {
            ((ObjectNode) element.required("binding")).put("strength", "required");
        }
        return complete.setAll(element);
    }

    /** The expression with the codes of a code system, as a regular expression, for {@code {codes:<id>}}. */
    private String withCodes(String expression) {
        return CODES.matcher(expression).replaceAll(place -> codes(place.group(1)));
    }

    private String codes(String codeSystem) {
        return terminology.stream()
                .filter(resource -> resource.path("resourceType").asText().equals("CodeSystem"))
                .filter(resource -> resource.path("id").asText().equals(codeSystem))
                .flatMap(resource -> resource.required("concept").valueStream())
                .map(concept -> concept.required("code").asText().replace(".", "[.]"))
                .collect(Collectors.joining("|"));
    }
}
