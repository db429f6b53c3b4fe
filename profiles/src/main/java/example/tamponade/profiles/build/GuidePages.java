package example.tamponade.profiles.build;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * The guide as pages that an engineer reads in a browser: one for each profile and extension, with what it is, where its
 * values come from, what it asks for and an example, and one that lists them in reading order.
 */
final class GuidePages {

    private static final String CAUTION =
            "Decision support for review by licensed clinicians; not a medical device. Local"
                    + " protocols and licensed judgement decide. Every example is invented.";

    private final ObjectNode guide;
    private final JsonNode comesFrom;
    private final Map<String, String> properties = new HashMap<>();
    private final Map<String, String> facts = new HashMap<>();
    private final Map<String, List<ObjectNode>> examples = new LinkedHashMap<>();

    /**
     * Pages of this guide.
     *
     * @param guide the guide, completed
     * @param comesFrom profile to the event properties that it tells
     */
    GuidePages(ObjectNode guide, JsonNode comesFrom, List<ObjectNode> terminology, List<ObjectNode> examples) {
        this.guide = guide;
        this.comesFrom = comesFrom;
        for (ObjectNode system : terminology) {
            String id = system.path("id").asText();
            if (id.equals("event-property") || id.equals("event-type")) {
                system.path("concept")
                        .forEach(it -> properties.put(it.path("code").asText(), display(it)));
            } else if (id.equals("derived-fact") || id.equals("derivation-method")) {
                system.path("concept")
                        .forEach(it -> facts.merge(code(it), definition(it), (one, more) -> one + " " + more));
            }
        }
        examples.forEach(it -> this.examples
                .computeIfAbsent(it.at("/meta/profile/0").asText(), profile -> new ArrayList<>())
                .add(it));
    }

    void write(List<ObjectNode> profiles, Path folder) throws IOException {
        Files.createDirectories(folder);
        for (ObjectNode profile : profiles) {
            Files.writeString(folder.resolve(file(profile.path("id").asText())), page(profile));
        }
        Files.writeString(folder.resolve("index.html"), index());
    }

    private String index() {
        GuidePage page = new GuidePage(guide.path("title").asText());
        page.paragraph(guide.path("description").asText());
        for (JsonNode group : guide.at("/definition/grouping")) {
            List<JsonNode> listed = new ArrayList<>();
            guide.at("/definition/resource").forEach(line -> {
                if (line.path("groupingId").equals(group.path("id"))
                        && reference(line).startsWith("StructureDefinition/")) {
                    listed.add(line);
                }
            });
            if (!listed.isEmpty()) {
                page.heading(group.path("name").asText())
                        .paragraph(group.path("description").asText());
                listed.forEach(line -> page.link(
                        file(reference(line).substring("StructureDefinition/".length())),
                        line.path("name").asText(),
                        line.path("description").asText()));
            }
        }
        return page.html();
    }

    private static String reference(JsonNode line) {
        return line.at("/reference/reference").asText();
    }

    private static String file(String id) {
        return id + ".html";
    }

    private String page(ObjectNode profile) {
        String id = profile.path("id").asText();
        GuidePage page = new GuidePage(profile.path("title").asText());
        page.paragraph(profile.path("description").asText());
        page.paragraph(profile.path("type").asText() + " on "
                + profile.path("baseDefinition").asText() + "; address "
                + profile.path("url").asText() + ", version "
                + profile.path("version").asText() + ".");
        page.caution(CAUTION);
        addOrigin(page, id);
        page.heading("What it asks for");
        page.table(List.of("Element", "How many", "What", "Must be supported"), elements(profile));
        addRules(page, profile);
        List<ObjectNode> own = examples.getOrDefault(profile.path("url").asText(), List.of());
        own.forEach(it -> page.heading("Example " + it.path("id").asText()).json(it));
        page.link("index.html", "All pages", "the guide in reading order");
        return page.html();
    }

    private void addOrigin(GuidePage page, String id) {
        if (comesFrom.has(id)) {
            page.heading("Where it comes from");
            List<List<String>> rows = GuidePage.texts(comesFrom.path(id)).stream()
                    .map(it -> List.of(it, properties.getOrDefault(it, "")))
                    .toList();
            page.table(List.of("Property of a bedside event", "In words"), rows);
        } else if (facts.containsKey(id)) {
            page.heading("How it is worked out").paragraph(facts.get(id));
        }
    }

    private static List<List<String>> elements(ObjectNode profile) {
        Map<String, JsonNode> snapshot = new HashMap<>();
        profile.at("/snapshot/element").forEach(it -> snapshot.put(it.path("id").asText(), it));
        List<List<String>> rows = new ArrayList<>();
        for (JsonNode element : profile.at("/differential/element")) {
            String id = element.path("id").asText();
            JsonNode whole = snapshot.getOrDefault(id, element);
            rows.add(List.of(
                    id,
                    whole.path("min").asText() + ".." + whole.path("max").asText(),
                    what(element, whole),
                    element.path("mustSupport").asBoolean() ? "yes" : ""));
        }
        return rows;
    }

    private static String what(JsonNode element, JsonNode whole) {
        List<String> parts = new ArrayList<>();
        parts.add(whole.path("short").asText());
        element.fields().forEachRemaining(it -> {
            if (it.getKey().startsWith("fixed") || it.getKey().startsWith("pattern")) {
                parts.add("always " + it.getValue());
            }
        });
        if (element.has("binding")) {
            parts.add(element.at("/binding/strength").asText() + ": "
                    + element.at("/binding/valueSet").asText());
        }
        for (JsonNode type : element.path("type")) {
            List<String> targets = GuidePage.texts(type.path("targetProfile"));
            targets.addAll(GuidePage.texts(type.path("profile")));
            parts.add(type.path("code").asText() + (targets.isEmpty() ? "" : " " + String.join(", ", targets)));
        }
        return parts.stream().filter(it -> !it.isEmpty()).collect(Collectors.joining("; "));
    }

    private static void addRules(GuidePage page, ObjectNode profile) {
        List<List<String>> rules = new ArrayList<>();
        for (JsonNode element : profile.at("/differential/element")) {
            for (JsonNode rule : element.path("constraint")) {
                rules.add(List.of(
                        rule.path("key").asText(),
                        rule.path("human").asText(),
                        rule.path("expression").asText()));
            }
        }
        if (!rules.isEmpty()) {
            page.heading("Rules").table(List.of("Key", "Rule", "FHIRPath"), rules);
        }
        profile.path("context")
                .forEach(it ->
                        page.paragraph("Stands on: " + it.path("expression").asText() + "."));
    }

    private static String code(JsonNode concept) {
        return concept.path("code").asText();
    }

    private static String display(JsonNode concept) {
        return concept.path("display").asText();
    }

    private static String definition(JsonNode concept) {
        return concept.path("definition").asText();
    }
}
