package example.tamponade.app.projection;

import static java.nio.charset.StandardCharsets.UTF_8;

import example.tamponade.app.Samples;
import example.tamponade.app.intake.EventReader;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Makes events of every type by the published schema, with values at the edges of what it lets pass and beyond. */
final class AnyEvents {

    private static final JsonNode SCHEMA = JsonMapper.shared().readTree(EventReader.schemaText());
    private static final JsonMapper EXACT = JsonMapper.builder()
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .build();
    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

    // Unicode 15: blanks, separators, marks of direction, joiners, halves of pairs, characters outside of the first
    // plane.
    private static final List<String> TEXTS = List.of(
            "awake",
            "\u3000",
            "\u2028",
            "\u2029",
            "\ufeff",
            "\u00a0",
            "\u200b",
            "\u0085",
            "a\u2028b",
            "\ufeffa",
            "a\u00a0",
            " a ",
            "\ta",
            "a\nb",
            "a\r\nb",
            "<b>&amp;</b>",
            "]]>",
            "\"'",
            "\\",
            "\ud83e\ude78",
            "\ud800",
            "a\ud800b",
            "\ufffe",
            "\uffff",
            "\u202e",
            "e\u0301",
            "\u0000",
            "\u001f",
            "\u007f",
            "\u009f",
            "\ue000",
            "\udb40\udc41",
            "\u0627\u0645",
            "$1",
            "%s",
            "{0}",
            "--",
            "<!--",
            "x".repeat(200),
            "x".repeat(10000),
            "\u00e9".repeat(200),
            "urn:x:y");
    private static final List<String> KEYS =
            List.of("QBP-7", "a", "A".repeat(64), ".", "..", "-", "0", "a.b-C", "a_b", "");
    private static final List<String> UNITS = List.of(
            "mL",
            "g",
            "kg",
            "mm[Hg]",
            "/min",
            "Cel",
            "[degF]",
            "L",
            "dL",
            "g/dL",
            "mmol/L",
            "%",
            "10*9/L",
            "1",
            "[foz_us]",
            "d",
            "mL{spilt}",
            "{drop}",
            "min",
            "cm9999",
            "Ym9",
            "h",
            "[lb_av]",
            "kPa",
            "10*99",
            "s");
    private static final List<String> NUMBERS = List.of(
            "0",
            "1",
            "2",
            "12",
            "37.2",
            "50",
            "70",
            "96",
            "110",
            "300",
            "500",
            "1200",
            "0.5",
            "9.50",
            "1e2",
            "-1",
            "-0.0",
            "1e-15",
            "0.00000001",
            "999999999999999",
            "1e15",
            "1e400",
            "3.14159265358979",
            "4294967296");
    private static final List<String> TIMES = List.of(
            "2026-05-02T23:58:00+05:45",
            "2026-05-03T00:10:00+05:45",
            "2026-05-02T18:13:00Z",
            "2026-05-02T23:58:00.123456789Z",
            "2026-05-03T08:13:00+14:00",
            "2026-05-02T04:13:00-14:00",
            "2026-05-03T12:13:00+18:00",
            "2026-05-02T00:13:00-18:00",
            "0000-01-01T00:00:00Z",
            "0001-01-01T00:00:00Z",
            "1900-01-01T00:00:00+14:00",
            "2199-12-31T23:59:59-14:00",
            "9999-12-31T23:59:59-18:00",
            "2026-02-30T00:00:00Z",
            "2026-05-02T23:58:00",
            "2026-05-02T23:59:60Z");
    private static final List<String> DATES =
            List.of("1998-03-04", "2027-06-30", "1900-01-01", "2199-12-31", "0000-01-01", "9999-12-31", "2027-02-29");

    private static final List<String> URIS = List.of(
            "urn:example:register:ward",
            "urn:uuid:1",
            "http://x",
            "a:b",
            "urn:oid:1.2",
            "urn:oid:01.2",
            "URN:x:y",
            "urn:x:%2",
            "http://a:b",
            "https://reg.example/x?y",
            "http://a/%zz",
            "urn:uuid:6f0d7a7c-3c1e-4d51-9a55-0a1b2c3d4e5f",
            "http://a.example/~x/(1)",
            "http://-",
            "http://..",
            "urn:ab:c:d",
            "mailto:a@b",
            "x:\u3000",
            "x:\u00e9",
            "x:<>",
            "x:%",
            "x:\u2028");

    private static final List<List<JsonNode>> BY_TYPE =
            List.copyOf(Stream.of("settled", "referred", "bled-again", "warnings")
                    .flatMap(it -> new String(Samples.events(it), UTF_8).lines())
                    .map(it -> (JsonNode) EXACT.readTree(it))
                    .collect(Collectors.groupingBy(it -> it.path("type").asString("")))
                    .values());

    private final Random random;

    AnyEvents(Random random) {
        this.random = random;
    }

    /** An event of the samples in which a value or two are spoilt, or one made of the schema alone. */
    String event() {
        return random.nextBoolean() ? ofSample() : ofSchema();
    }

    private String ofSample() {
        List<JsonNode> type = BY_TYPE.get(random.nextInt(BY_TYPE.size()));
        ObjectNode event = (ObjectNode) type.get(random.nextInt(type.size())).deepCopy();
        event.put("eventId", new UUID(random.nextLong(), random.nextLong()).toString());
        for (int i = random.nextInt(3); i > 0; i--) {
            List<Runnable> changes = new ArrayList<>();
            changes(event, changes);
            changes.get(random.nextInt(changes.size())).run();
        }
        return event.toString();
    }

    private void changes(JsonNode node, List<Runnable> changes) {
        if (node instanceof ObjectNode object) {
            for (String name : List.copyOf(object.propertyNames())) {
                if (object.path(name).isValueNode()) {
                    changes.add(() -> object.set(name, spoilt(object.path(name))));
                }
                changes(object.path(name), changes);
            }
        }
        node.valueStream().filter(JsonNode::isArray).forEach(it -> it.forEach(element -> changes(element, changes)));
    }

    private JsonNode spoilt(JsonNode value) {
        if (value.isNumber()) {
            return NODES.numberNode(new BigDecimal(one(NUMBERS)));
        }
        if (value.isBoolean()) {
            return NODES.booleanNode(!value.booleanValue());
        }
        List<List<String>> kinds = List.of(TEXTS, TEXTS, KEYS, TIMES, DATES, UNITS, URIS);
        List<String> kind = value.asString().contains("T") ? TIMES : kinds.get(random.nextInt(kinds.size()));
        return NODES.stringNode(one(kind));
    }

    // Sound in its envelope more often than not, so that most of what its type brings is reached.
    private String ofSchema() {
        JsonNode branch =
                SCHEMA.path("allOf").get(random.nextInt(SCHEMA.path("allOf").size()));
        String type = branch.at("/if/properties/type/const").stringValue();
        boolean edge = random.nextInt(4) == 0;
        ObjectNode event = NODES.objectNode();
        event.put("eventId", new UUID(random.nextLong(), random.nextLong()).toString());
        if (!type.equals("readiness-checked")) {
            event.put("caseId", edge ? one(KEYS) : "QBP-7");
        }
        event.put("facilityId", edge ? one(KEYS) : "quillmere-bp");
        event.put("type", type);
        event.put("occurredAt", edge ? one(TIMES) : TIMES.get(0));
        event.put("recordedAt", edge ? one(TIMES) : TIMES.get(1));
        event.putObject("recordedBy").put("id", edge ? one(TEXTS) : "qm-01").put("role", "midwife");
        event.set("data", value(branch.at("/then/properties/data")));
        return event.toString();
    }

    private JsonNode value(JsonNode schema) {
        String ref = schema.path("$ref").asString("");
        if (!ref.isEmpty()) {
            String name = ref.substring(ref.lastIndexOf('/') + 1);
            return switch (name) {
                case "uuid" -> NODES.stringNode(new UUID(0, random.nextInt(3)).toString());
                case "key" -> NODES.stringNode(one(KEYS));
                case "instant" -> NODES.stringNode(usual(TIMES, 2));
                case "date" -> NODES.stringNode(usual(DATES, 2));
                case "ucum-unit" -> NODES.stringNode(one(UNITS));
                case "text", "long-text" -> NODES.stringNode(usual(TEXTS, 1));
                default -> value(SCHEMA.at("/$defs/" + name));
            };
        }
        if (schema.has("enum")) {
            return schema.path("enum").get(random.nextInt(schema.path("enum").size()));
        }
        return ofType(schema);
    }

    private JsonNode ofType(JsonNode schema) {
        JsonNode types = schema.path("type");
        String type =
                types.isArray() ? types.get(random.nextInt(5) == 0 ? 1 : 0).stringValue() : types.asString();
        return switch (type) {
            case "object" -> object(schema);
            case "array" -> array(schema);
            case "boolean" -> NODES.booleanNode(random.nextBoolean());
            case "number", "integer" -> NODES.numberNode(new BigDecimal(usual(NUMBERS, 12)));
            default -> NODES.stringNode(usual(URIS, 1));
        };
    }

    private ObjectNode object(JsonNode schema) {
        ObjectNode object = NODES.objectNode();
        schema.path("properties").properties().forEach(it -> {
            boolean required = schema.path("required")
                    .valueStream()
                    .anyMatch(name -> name.stringValue().equals(it.getKey()));
            if (required || random.nextInt(3) > 0) {
                object.set(it.getKey(), value(it.getValue()));
            }
        });
        return object;
    }

    private ArrayNode array(JsonNode schema) {
        ArrayNode array = NODES.arrayNode();
        for (int i = random.nextInt(3); i >= 0; i--) {
            array.add(value(schema.path("items")));
        }
        return array;
    }

    private String one(List<String> values) {
        return values.get(random.nextInt(values.size()));
    }

    // One of the first few most of the time; else an edge.
    private String usual(List<String> values, int first) {
        return random.nextInt(5) > 0 ? values.get(random.nextInt(first)) : one(values);
    }
}
