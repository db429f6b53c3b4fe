package example.tamponade.fhir.terms;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.IParser;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.Questionnaire;
import org.hl7.fhir.r4.model.Questionnaire.QuestionnaireItemComponent;
import org.hl7.fhir.r4.model.Questionnaire.QuestionnaireItemType;
import org.hl7.fhir.r4.model.ValueSet;
import org.hl7.fhir.utilities.npm.NpmPackage;
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
        try {
            NpmPackage npm = PublishedPackage.open();
            IParser json = FhirContext.forR4Cached().newJsonParser();
            Map<String, String> systems = new HashMap<>();
            for (String file : npm.listResources("ValueSet")) {
                ValueSet set = json.parseResource(ValueSet.class, npm.loadResource(file));
                systems.put(set.getUrl(), set.getCompose().getIncludeFirstRep().getSystem());
            }
            Questionnaire form =
                    json.parseResource(Questionnaire.class, npm.load("package", "Questionnaire-bedside-events.json"));
            Map<String, Item> items = new HashMap<>();
            form.getItem().forEach(it -> add(it, "", systems, items));
            return new EventForm(form.getUrl(), form.getVersion(), Map.copyOf(items));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void add(
            QuestionnaireItemComponent asked, String parent, Map<String, String> systems, Map<String, Item> items) {
        if (asked.getType() == QuestionnaireItemType.DISPLAY) {
            return;
        }
        Item item = new Item(
                asked.getLinkId(),
                parent,
                asked.getType(),
                asked.getType() == QuestionnaireItemType.GROUP
                        ? null
                        : asked.getCodeFirstRep().getCode(),
                unit(asked),
                systems.get(asked.getAnswerValueSet()),
                asked.getRepeats(),
                asked.getRequired());
        items.put(item.linkId(), item);
        asked.getItem().forEach(it -> add(it, item.linkId(), systems, items));
    }

    private static @Nullable String unit(QuestionnaireItemComponent asked) {
        return asked.getExtension().stream()
                .filter(it -> UNITS.contains(it.getUrl()))
                .map(Extension::getValue)
                .map(it -> ((Coding) it).getCode())
                .findFirst()
                .orElse(null);
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
