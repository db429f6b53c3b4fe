package example.tamponade.app.response;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.intake.EventReader;
import example.tamponade.fhir.terms.EventForm;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.hl7.fhir.r4.model.Questionnaire.QuestionnaireItemType;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The published form asks for what the published schema of the events has, and for nothing else. */
class FormVocabularyTest {

    private static final JsonNode SCHEMA = new JsonMapper().readTree(EventReader.schemaText());
    private static final EventForm FORM = EventForm.read();
    private static final Map<String, String> TYPES = Map.of(
            "date-time",
            "dateTime",
            "date",
            "date",
            "uri",
            "url",
            "boolean",
            "boolean",
            "integer",
            "integer",
            "number",
            "decimal");

    // What the schema requires and a response says elsewhere, or what only some events have.
    private static final Set<String> SAID_ELSEWHERE = Set.of("eventId", "recordedAt");

    @Test
    void everyPropertyHasItsItemAndEveryItemItsProperty() {
        Map<String, String> asked = new TreeMap<>();
        asked("", asked);
        Map<String, String> expected = new TreeMap<>();
        envelope(expected);
        for (JsonNode type : SCHEMA.at("/properties/type/enum")) {
            expect(type.stringValue(), resolve(SCHEMA.at("/$defs/" + type.stringValue())), expected);
        }

        assertThat(asked).isEqualTo(expected);
    }

    private static void asked(String group, Map<String, String> asked) {
        for (EventForm.Item item : FORM.items(group)) {
            if (item.property() != null) {
                asked.put(item.linkId(), line(item.type().toCode(), item.unit(), item.repeats(), item.required()));
                assertThat(item.type() == QuestionnaireItemType.CHOICE).isEqualTo(item.answers() != null);
            }
            asked(item.linkId(), asked);
        }
    }

    private static void envelope(Map<String, String> expected) {
        JsonNode root = SCHEMA;
        for (String name : root.path("properties").propertyNames()) {
            boolean required = required(root, name) && !SAID_ELSEWHERE.contains(name);
            if (!name.equals("data") && !name.equals("recordedBy")) {
                expected.put(name, leaf(root.path("properties").path(name), false, required));
            }
        }
        // An event has a type unless it withdraws another, which the form has as a type of its own.
        expected.put("type", line("choice", null, false, true));
        expected.put("retracts", line("string", null, false, true));
        JsonNode recorder = root.at("/properties/recordedBy/properties");
        for (String name : recorder.propertyNames()) {
            expected.put("recordedBy." + name, leaf(recorder.path(name), false, true));
            expected.put("event.recordedBy." + name, leaf(recorder.path(name), false, false));
        }
    }

    private static void expect(String link, JsonNode object, Map<String, String> expected) {
        for (String name : object.path("properties").propertyNames()) {
            JsonNode property = resolve(object.path("properties").path(name));
            boolean list = property.path("type").asString("").equals("array");
            boolean required = required(object, name)
                    && (!list || property.path("minItems").asInt(0) > 0);
            JsonNode value = list ? resolve(property.path("items")) : property;
            if (value.path("type").asString("").equals("object")) {
                expect(link + "." + name, value, expected);
            } else {
                expected.put(link + "." + name, leaf(value, list, required));
            }
        }
    }

    private static boolean required(JsonNode object, String name) {
        return object.path("required")
                .valueStream()
                .anyMatch(it -> it.stringValue().equals(name));
    }

    private static String leaf(JsonNode property, boolean list, boolean required) {
        JsonNode value = resolve(property);
        String unit = value.path("x-unit").asString(null);
        JsonNode type = value.path("type");
        String format = value.path("format").asString(type.asString(""));
        String asked = value.has("enum")
                ? "choice"
                : type.isArray()
                        ? "quantity"
                        : TYPES.getOrDefault(format, value.path("maxLength").asInt(0) > 200 ? "text" : "string");
        return line(asked, unit, list, required);
    }

    private static String line(String type, String unit, boolean repeats, boolean required) {
        return type + ", unit " + unit + (repeats ? ", repeats" : "") + (required ? ", required" : "");
    }

    private static JsonNode resolve(JsonNode property) {
        String reference = property.path("$ref").asString("");
        return reference.isEmpty() ? property : resolve(SCHEMA.at(reference.substring(1)));
    }
}
