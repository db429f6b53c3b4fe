package example.tamponade.fhir.conformance.mutants;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiConsumer;
import java.util.function.Predicate;
import java.util.random.RandomGenerator;

/**
 * One way to change a value of a resource.
 *
 * @param name what it is called in the name of the mutant
 * @param fits which values it can be done to
 * @param change does it
 */
record Mutation(String name, Predicate<Place> fits, BiConsumer<Place, RandomGenerator> change) {

    private static final String OURS = "https://tamponade-adapter.example/fhir/";
    private static final List<String> TEXTS = List.of(
            " ",
            "no-such-code",
            "a\tb",
            "x y",
            " lead",
            "\u0001",
            "2025-02-30",
            "2025-13",
            "2025",
            "0000-01-01",
            "2025-01-01T10:00:00+15:00",
            "2025-01-01T10:00:00",
            "2025-01-01T25:00:00Z",
            "24:00:00",
            "urn:uuid:x",
            "urn:oid:1.2.x",
            "true",
            "-1",
            "1.5",
            "http://a b",
            "#nope",
            "<b>",
            "a".repeat(70),
            "\u00e4\u3000");
    private static final List<String> NUMBERS = List.of(
            "-1", "0", "0.0", "1e3", "1.5", "99999999999", "-0.001", "1e400", "12345678901234567890.123", "100000");
    private static final List<String> UNITS =
            List.of("furlong", "K", "{count}", "mL", "ml", "h", "[foz_us]", "", "mm[Hg]", "kg/m2", "10*3/uL", "1/min");
    private static final List<String> SYSTEMS = List.of(
            "http://loinc.org",
            "http://unitsofmeasure.org",
            "http://snomed.info/sct",
            "http://nowhere.example/system",
            OURS + "CodeSystem/bedside-item",
            OURS + "CodeSystem/nowhere",
            "http://terminology.hl7.org/CodeSystem/data-absent-reason",
            "not a uri",
            "urn:ietf:bcp:47");
    private static final List<String> REFERENCES = List.of(
            "Patient/none",
            "Observation/none",
            "Group/1",
            "#nope",
            "http://elsewhere.example/fhir/Patient/1",
            "nonsense",
            "urn:uuid:6d3f5cf6-0c0b-4b8e-9a6e-0a3a6a5b7c10",
            "Patient",
            "Patient/",
            "/none",
            "http://elsewhere.example//1",
            "Encounter/a b",
            "Device/x/_history/1");
    private static final List<String> EXTENSIONS = List.of(
            "{\"url\":\"http://elsewhere.example/extension\",\"valueString\":\"x\"}",
            "{\"url\":\"" + OURS + "StructureDefinition/nowhere\",\"valueString\":\"x\"}",
            "{\"url\":\"" + OURS + "StructureDefinition/care-protocol\",\"valueString\":\"a|1\"}",
            "{\"url\":\"" + OURS + "StructureDefinition/care-protocol\",\"valueInteger\":1}",
            "{\"url\":\"" + OURS + "StructureDefinition/corrects\",\"valueString\":\"x\"}",
            "{\"url\":\"http://hl7.org/fhir/StructureDefinition/data-absent-reason\",\"valueCode\":\"unknown\"}",
            "{\"url\":\"http://hl7.org/fhir/StructureDefinition/data-absent-reason\",\"valueCode\":\"nonsense\"}",
            "{\"url\":\"http://hl7.org/fhir/StructureDefinition/patient-birthPlace\",\"valueString\":\"x\"}",
            "{\"valueString\":\"x\"}",
            "{\"url\":\"http://elsewhere.example/extension\"}",
            "{\"url\":\"http://elsewhere.example/e\",\"valueString\":\"x\","
                    + "\"extension\":[{\"url\":\"y\",\"valueBoolean\":true}]}",
            "{\"url\":\"http://elsewhere.example/e\",\"valueTiming\":{\"repeat\":{\"count\":0}}}");
    private static final List<String> NARRATIVES = List.of(
            "<div xmlns=\"http://www.w3.org/1999/xhtml\"><script>x</script></div>",
            "<div xmlns=\"http://www.w3.org/1999/xhtml\"></div>",
            "<div xmlns=\"http://www.w3.org/1999/xhtml\"><p>unclosed</div>",
            "<div>plain</div>",
            "<p xmlns=\"http://www.w3.org/1999/xhtml\">x</p>",
            "<div xmlns=\"http://www.w3.org/1999/xhtml\"><p onclick=\"x()\">x</p></div>",
            "<div xmlns=\"http://www.w3.org/1999/xhtml\"><p>&nbsp;fine</p></div>",
            "<div xmlns=\"http://www.w3.org/1999/xhtml\"><a href=\"javascript:x\">x</a></div>",
            "text");
    private static final List<String> CODINGS = List.of(
            "{\"system\":\"http://terminology.hl7.org/CodeSystem/data-absent-reason\",\"code\":\"unknown\"}",
            "{\"system\":\"http://terminology.hl7.org/CodeSystem/data-absent-reason\",\"code\":\"no-such-code\"}",
            "{\"system\":\"" + OURS + "CodeSystem/bedside-item\",\"code\":\"no-such-code\"}",
            "{\"system\":\"" + OURS + "CodeSystem/bedside-item\",\"code\":\"pressure-unrecordable\"}",
            "{\"system\":\"http://loinc.org\",\"code\":\"8867-4\"}",
            "{\"system\":\"http://nowhere.example/system\",\"code\":\"x\",\"userSelected\":true}",
            "{\"system\":\"http://unitsofmeasure.org\",\"code\":\"furlong\"}",
            "{\"code\":\"alone\"}",
            "{\"display\":\"alone\"}");
    // Elements that many resources may have, and some may not; with values that are sound or nearly so.
    private static final List<String> ELEMENTS = List.of(
            "{\"language\":\"en-GB\"}",
            "{\"language\":\"no language\"}",
            "{\"implicitRules\":\"http://rules.example/x\"}",
            "{\"issued\":\"2025-01-01T10:00:00Z\"}",
            "{\"issued\":\"2025-01-01\"}",
            "{\"note\":[{\"text\":\"x\"}]}",
            "{\"note\":[{\"time\":\"2025-01\"}]}",
            "{\"note\":[{\"authorString\":\"x\",\"authorReference\":{\"display\":\"y\"},\"text\":\"z\"}]}",
            "{\"identifier\":[{\"use\":\"official\",\"system\":\"urn:x:y\",\"value\":\"1\"}]}",
            "{\"identifier\":[{\"use\":\"sometimes\"}]}",
            "{\"identifier\":[{\"period\":{\"start\":\"2025-02-02\",\"end\":\"2025-02-01\"}}]}",
            "{\"valueBoolean\":true}",
            "{\"valueQuantity\":{\"value\":1,\"comparator\":\"<\"}}",
            "{\"valueQuantity\":{\"code\":\"mL\"}}",
            "{\"valueRange\":{\"low\":{\"value\":2},\"high\":{\"value\":1}}}",
            "{\"valueRatio\":{\"numerator\":{\"value\":2}}}",
            "{\"bodySite\":{\"text\":\"x\"}}",
            "{\"bodySite\":{\"coding\":[{\"system\":\"http://snomed.info/sct\",\"code\":\"35039007\"}]}}",
            "{\"subject\":{\"type\":\"Patient\",\"identifier\":{\"value\":\"1\"}}}",
            "{\"subject\":{\"type\":\"Nonsense\",\"display\":\"x\"}}",
            "{\"performer\":[{\"display\":\"x\"}]}",
            "{\"performer\":[{\"reference\":\"Practitioner/p\",\"type\":\"Patient\"}]}",
            "{\"performer\":[{\"actor\":{\"display\":\"x\"}}]}",
            "{\"referenceRange\":[{\"low\":{\"value\":1}}]}",
            "{\"referenceRange\":[{\"type\":{\"text\":\"x\"}}]}",
            "{\"telecom\":[{\"value\":\"1\"}]}",
            "{\"telecom\":[{\"system\":\"phone\",\"value\":\"1\",\"rank\":0}]}",
            "{\"name\":[{\"family\":\"x\",\"given\":[\"y\",null],\"_given\":[null,{\"id\":\"a\"}]}]}",
            "{\"birthDate\":\"1990-00-01\"}",
            "{\"deceasedBoolean\":false,\"deceasedDateTime\":\"2025\"}",
            "{\"active\":\"true\"}",
            "{\"basedOn\":[{\"reference\":\"ServiceRequest/1\"}]}",
            "{\"partOf\":[{\"reference\":\"Patient/1\"}]}",
            "{\"status\":\"unknown\"}",
            "{\"photo\":[{\"contentType\":\"image/png\",\"data\":\"AAAA\",\"size\":-1}]}",
            "{\"photo\":[{\"data\":\"A A=\"}]}",
            "{\"dataAbsentReason\":{\"coding\":[{\"code\":\"unknown\"}]}}");
    private static final List<String> PROPERTIES = List.of(
            "valueString", "valueQuantity", "id", "text", "code", "status", "xyzzy", "reference", "system", "name");

    static List<Mutation> all() {
        List<Mutation> all = new ArrayList<>();
        shapes(all);
        values(all);
        codes(all);
        additions(all);
        return all;
    }

    private static void shapes(List<Mutation> all) {
        all.add(new Mutation("dropped", it -> true, (it, random) -> it.remove()));
        all.add(new Mutation("doubled", it -> true, (it, random) -> doubled(it)));
        all.add(new Mutation("emptied", it -> true, (it, random) -> emptied(it)));
        all.add(new Mutation(
                "nulled", it -> true, (it, random) -> it.set(nodes(it).nullNode())));
        all.add(new Mutation("retyped", it -> true, (it, random) -> retyped(it, random)));
        all.add(new Mutation("renamed", it -> it.index() < 0, (it, random) -> renamed(it, pick(PROPERTIES, random))));
        all.add(new Mutation(
                "reordered",
                it -> it.value() instanceof ArrayNode list && list.size() > 1,
                (it, random) -> reordered(it)));
        all.add(new Mutation("moved", Place::isObject, Mutation::moved));
    }

    private static void values(List<Mutation> all) {
        all.add(new Mutation("text", Place::isText, (it, random) -> it.set(pick(TEXTS, random))));
        all.add(new Mutation("one-off", Place::isText, Mutation::oneOff));
        all.add(new Mutation(
                "number",
                it -> it.value().isNumber(),
                (it, random) -> it.set(new com.fasterxml.jackson.databind.node.DecimalNode(
                        new java.math.BigDecimal(pick(NUMBERS, random))))));
        all.add(new Mutation(
                "narrative", it -> it.property().equals("div"), (it, random) -> it.set(pick(NARRATIVES, random))));
        all.add(new Mutation(
                "reference",
                it -> it.property().equals("reference"),
                (it, random) -> it.set(pick(REFERENCES, random))));
        all.add(new Mutation("profile", it -> it.path().contains("meta.profile["), Mutation::otherProfile));
    }

    private static void codes(List<Mutation> all) {
        all.add(new Mutation(
                "unit",
                it -> it.property().equals("code") && isQuantity(it.parent()),
                (it, random) -> it.set(pick(UNITS, random))));
        all.add(new Mutation(
                "system", it -> it.property().equals("system"), (it, random) -> it.set(pick(SYSTEMS, random))));
        all.add(new Mutation(
                "display",
                it -> it.property().equals("display"),
                (it, random) -> it.set(it.value().asText() + "s")));
        all.add(new Mutation(
                "recoded",
                it -> it.property().equals("coding") && it.isObject(),
                (it, random) -> it.set(parsed("{\"system\":\"" + pick(SYSTEMS, random) + "\",\"code\":\"85354-9\"}"))));
    }

    private static void additions(List<Mutation> all) {
        all.add(new Mutation(
                "translated",
                it -> it.property().equals("coding") && it.value() instanceof ArrayNode,
                Mutation::translated));
        all.add(new Mutation(
                "given",
                it -> it.path().endsWith(".id"),
                (it, random) -> ((ObjectNode) it.parent()).setAll((ObjectNode) parsed(pick(ELEMENTS, random)))));
        all.add(new Mutation(
                "unknown",
                Place::isObject,
                (it, random) -> ((ObjectNode) it.value()).put(pick(PROPERTIES, random), "x")));
        all.add(new Mutation(
                "extended",
                Place::isObject,
                (it, random) -> ((ObjectNode) it.value()).putArray("extension").add(parsed(pick(EXTENSIONS, random)))));
        all.add(new Mutation(
                "modified",
                Place::isObject,
                (it, random) ->
                        ((ObjectNode) it.value()).putArray("modifierExtension").add(parsed(pick(EXTENSIONS, random)))));
        all.add(new Mutation(
                "underscored",
                it -> !it.value().isContainerNode()
                        && it.index() < 0
                        && !it.name().startsWith("_"),
                (it, random) -> ((ObjectNode) it.parent())
                        .putObject("_" + it.name())
                        .putArray("extension")
                        .add(parsed(pick(EXTENSIONS, random)))));
        all.add(new Mutation("containing", it -> it.path().equals(".id"), Mutation::contained));
    }

    private static void translated(Place it, RandomGenerator random) {
        ArrayNode codings = (ArrayNode) it.value();
        codings.insert(random.nextInt(codings.size() + 1), parsed(pick(CODINGS, random)));
    }

    private static void doubled(Place it) {
        if (it.parent() instanceof ArrayNode list) {
            list.insert(it.index(), it.value().deepCopy());
        } else {
            JsonNode value = it.value();
            ArrayNode twice = ((ObjectNode) it.parent()).putArray(it.name());
            twice.add(value).add(value.deepCopy());
        }
    }

    private static void emptied(Place it) {
        JsonNode value = it.value();
        it.set(
                value.isObject()
                        ? nodes(it).objectNode()
                        : value.isArray() ? nodes(it).arrayNode() : nodes(it).textNode(""));
    }

    private static void retyped(Place it, RandomGenerator random) {
        JsonNode value = it.value();
        List<JsonNode> others = List.of(
                nodes(it).numberNode(7),
                nodes(it).booleanNode(true),
                nodes(it).textNode("7"),
                nodes(it).objectNode().put("value", "x"),
                nodes(it).arrayNode().add("x"));
        List<JsonNode> fitting = others.stream()
                .filter(other -> other.getNodeType() != value.getNodeType())
                .toList();
        it.set(pick(fitting, random));
    }

    private static void renamed(Place it, String name) {
        JsonNode value = it.value();
        it.remove();
        ((ObjectNode) it.parent()).set(name, value);
    }

    private static void reordered(Place it) {
        ArrayNode list = (ArrayNode) it.value();
        list.add(list.remove(0));
    }

    // Puts what one object holds where another stands.
    private static void moved(Place it, RandomGenerator random) {
        ObjectNode value = (ObjectNode) it.value();
        List<String> names = new ArrayList<>();
        value.fieldNames().forEachRemaining(names::add);
        if (names.isEmpty()) {
            return;
        }
        String name = pick(names, random);
        JsonNode taken = value.remove(name);
        if (it.parent() instanceof ObjectNode parent) {
            parent.set(name, taken);
        }
    }

    private static void oneOff(Place it, RandomGenerator random) {
        String text = it.value().asText();
        int at = text.isEmpty() ? 0 : random.nextInt(text.length());
        char other = text.isEmpty() || text.charAt(at) != 'q' ? 'q' : 'z';
        it.set(text.substring(0, at) + other + text.substring(Math.min(text.length(), at + 1)));
    }

    private static void otherProfile(Place it, RandomGenerator random) {
        it.set(pick(
                List.of(
                        OURS + "StructureDefinition/nowhere",
                        OURS + "StructureDefinition/shock-index",
                        OURS + "StructureDefinition/birth",
                        "http://hl7.org/fhir/StructureDefinition/vitalsigns",
                        "http://hl7.org/fhir/StructureDefinition/Patient",
                        OURS + "StructureDefinition/case-flag|9.9"),
                random));
    }

    private static void contained(Place it, RandomGenerator random) {
        ((ObjectNode) it.parent())
                .putArray("contained")
                .add(parsed(pick(
                        List.of(
                                "{\"resourceType\":\"Patient\",\"id\":\"p\",\"active\":true}",
                                "{\"resourceType\":\"Patient\",\"active\":true}",
                                "{\"resourceType\":\"Nonsense\",\"id\":\"p\"}",
                                "{\"resourceType\":\"Device\",\"id\":\"d\",\"meta\":{\"versionId\":\"1\"}}",
                                "{\"resourceType\":\"Observation\",\"id\":\"o\",\"status\":\"final\"}"),
                        random)));
    }

    private static boolean isQuantity(JsonNode node) {
        return node.has("value") && node.has("code");
    }

    private static ObjectNode parsed(String json) {
        return Mutants.read(json);
    }

    private static com.fasterxml.jackson.databind.node.JsonNodeFactory nodes(Place it) {
        return com.fasterxml.jackson.databind.node.JsonNodeFactory.instance;
    }

    private static <T> T pick(List<T> list, RandomGenerator random) {
        return list.get(random.nextInt(list.size()));
    }
}
