package example.tamponade.fhir.terms;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.UncheckedIOException;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Questionnaire.QuestionnaireItemType;
import org.jspecify.annotations.Nullable;

/** The published form for bedside events: what is asked under which link, and how it is answered. Immutable. */
public final class EventForm {

    private static final List<String> UNITS = List.of(
            "http://hl7.org/fhir/StructureDefinition/questionnaire-unitOption",
            "http://hl7.org/fhir/StructureDefinition/questionnaire-unit");

    private final String canonical;
    private final String version;
    private final Map<String, Item> items;

    private EventForm(String canonical, String version, Map<String, Item> items) {
        this.canonical = canonical;
        this.version = version;
        this.items = items;
    }

    /**
     * An item of the form.
     *
     * @param linkId its link, for example {@code blood-loss.volumeMl}
     * @param parent the link of the group that it stands in; empty at the top
     * @param type how it is answered; a group has no answer of its own
     * @param property the property of the event, as in the event-property code system; null for a group
     * @param unit the UCUM unit of a plain number; null when it has none
     * @param answers the code system that the answers of a choice come from; null when it is no choice
     * @param repeats whether it can be answered more than once
     * @param required whether it has to be answered
     */
    public record Item(
            String linkId,
            String parent,
            QuestionnaireItemType type,
            @Nullable String property,
            @Nullable String unit,
            @Nullable String answers,
            boolean repeats,
            boolean required) {}

    /**
     * Reads the published package on the class path.
     *
     * @throws UncheckedIOException when the package is missing or damaged
     */
    public static EventForm read() {
        PublishedTerms published = PublishedTerms.read();
        Map<String, String> systems = new HashMap<>();
        published.all("ValueSet").forEach(set -> systems.put(text(set, "url"), firstSystem(set)));
        JsonNode form = published.all("Questionnaire").findFirst().orElseThrow();
        Map<String, Item> items = new HashMap<>();
        PublishedTerms.elements(form, "item").forEach(it -> add(it, "", systems, items));
        return new EventForm(text(form, "url"), text(form, "version"), Map.copyOf(items));
    }

    private static String firstSystem(JsonNode set) {
        return text(set.required("compose").required("include").required(0), "system");
    }

    private static void add(JsonNode asked, String parent, Map<String, String> systems, Map<String, Item> items) {
        QuestionnaireItemType type = QuestionnaireItemType.fromCode(text(asked, "type"));
        if (type == QuestionnaireItemType.DISPLAY) {
            return;
        }
        Item item = new Item(
                text(asked, "linkId"),
                parent,
                type,
                type == QuestionnaireItemType.GROUP
                        ? null
                        : text(asked.required("code").required(0), "code"),
                unit(asked),
                systems.get(asked.path("answerValueSet").asText()),
                asked.path("repeats").asBoolean(),
                asked.path("required").asBoolean());
        items.put(item.linkId(), item);
        PublishedTerms.elements(asked, "item").forEach(it -> add(it, item.linkId(), systems, items));
    }

    private static @Nullable String unit(JsonNode asked) {
        return PublishedTerms.elements(asked, "extension")
                .filter(it -> UNITS.contains(text(it, "url")))
                .map(it -> text(it.required("valueCoding"), "code"))
                .findFirst()
                .orElse(null);
    }

    private static String text(JsonNode node, String name) {
        return node.required(name).asText();
    }

    /** The address of the form, without a version. */
    public String canonical() {
        return canonical;
    }

    /** The version of the form, for example {@code 0.1.0}. */
    public String version() {
        return version;
    }

    /** The item with that link; null when the form has none. */
    public @Nullable Item item(String linkId) {
        return items.get(linkId);
    }

    /** The code system that the answers to that item come from; null when it is no choice. */
    public @Nullable String answersOf(String linkId) {
        Item item = items.get(linkId);
        return item == null ? null : item.answers();
    }

    /** The items that stand in that group, by their links. */
    public List<Item> items(String group) {
        return items.values().stream()
                .filter(it -> it.parent().equals(group))
                .sorted(Comparator.comparing(Item::linkId))
                .toList();
    }
}
