package example.tamponade.conformance.rules;

import example.tamponade.conformance.fhirpath.ExpressionReader;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** All definitions, made of the compiled JSON as they are asked for. Safe for several threads. */
public final class Profiles {

    private static final String CORE = "http://hl7.org/fhir/StructureDefinition/";

    private final JsonNode compiled;
    private final Map<String, Definition> definitions = new ConcurrentHashMap<>();
    private final Map<String, Definition> types = new ConcurrentHashMap<>();
    private final Map<String, ValueSetRule> valueSets = new ConcurrentHashMap<>();
    private final Map<String, CodeSystemRule> codeSystems = new ConcurrentHashMap<>();
    private final Rules[] rules;
    private final Invariant[] invariants;

    /** Reads what the compiler wrote. */
    public Profiles(JsonNode compiled) {
        this.compiled = compiled;
        this.rules = new Rules[compiled.get("nodes").size()];
        this.invariants = new Invariant[compiled.get("invariants").size()];
    }

    /** What the addresses of the package's own definitions begin with. */
    public String canonical() {
        return compiled.get("canonical").stringValue();
    }

    /** The definition of that address; null when there is none. */
    public @Nullable Definition definition(String url) {
        Definition known = definitions.get(url);
        if (known != null) {
            return known;
        }
        JsonNode node = compiled.get("definitions").get(url);
        return node == null ? null : definitions.computeIfAbsent(url, key -> definition(key, node));
    }

    /** The definition of a type of FHIR R4; null when it was not reached. */
    public @Nullable Definition type(String code) {
        Definition known = types.get(code);
        if (known == null) {
            known = definition(code.startsWith("http") ? code : CORE + code);
            if (known != null) {
                types.put(code, known);
            }
        }
        return known;
    }

    private Definition definition(String url, JsonNode node) {
        List<Definition.Context> contexts = new ArrayList<>();
        node.get("contexts")
                .forEach(it -> contexts.add(new Definition.Context(
                        it.get("type").stringValue(), it.get("expression").stringValue())));
        return new Definition(
                url,
                node.get("type").stringValue(),
                node.get("profile").booleanValue(),
                node.get("kind").stringValue().equals("primitive-type"),
                node.path("version").asString(""),
                contexts,
                rules(node.get("root").intValue()));
    }

    /** The rules of the element that another of the same definition is like. */
    public Rules named(String url, String element) {
        return rules(
                compiled.get("definitions").get(url).get("named").get(element).intValue());
    }

    /** The rules at a place; two threads may both make them, which does no harm. */
    Rules rules(int place) {
        Rules made = rules[place];
        if (made == null) {
            made = rules(compiled.get("nodes").get(place));
            rules[place] = made;
        }
        return made;
    }

    Slice slice(JsonNode node) {
        return new Slice(rules(node.get("node").intValue()), ExpressionReader.read(node.get("match")));
    }

    private Rules rules(JsonNode node) {
        List<TypeRule> types = new ArrayList<>();
        node.path("types")
                .forEach(it -> types.add(new TypeRule(
                        it.get("code").stringValue(), strings(it.path("profiles")), strings(it.path("targets")))));
        List<Invariant> holds = new ArrayList<>();
        node.path("invariants").forEach(it -> holds.add(invariant(it.intValue())));
        return new Rules(this, node, head(node), List.copyOf(types), List.copyOf(holds));
    }

    private Rules.Head head(JsonNode node) {
        String path = node.get("path").stringValue();
        String last = path.substring(path.lastIndexOf('.') + 1);
        boolean choice = last.endsWith("[x]");
        return new Rules.Head(
                path,
                (choice ? last.substring(0, last.length() - "[x]".length()) : last).intern(),
                choice,
                node.get("min").intValue(),
                node.get("max").intValue(),
                node.get("list").booleanValue(),
                node.has("slice") ? node.get("slice").stringValue() : null,
                node.get("fixed"),
                node.get("pattern"),
                binding(node.get("binding")),
                node.path("maxLength").asInt(-1),
                number(node.get("least")),
                number(node.get("most")),
                node.path("rules").asString("").equals("closed"));
    }

    private static @Nullable BigDecimal number(@Nullable JsonNode node) {
        return node == null ? null : new BigDecimal(node.stringValue());
    }

    private @Nullable Binding binding(@Nullable JsonNode node) {
        return node == null
                ? null
                : new Binding(
                        node.get("strength").stringValue(),
                        valueSet(node.get("valueSet").stringValue()),
                        binding(node.get("base")));
    }

    private Invariant invariant(int place) {
        Invariant made = invariants[place];
        if (made == null) {
            JsonNode node = compiled.get("invariants").get(place);
            made = new Invariant(
                    node.get("key").stringValue(),
                    node.get("severity").stringValue().equals("error"),
                    node.get("human").stringValue(),
                    node.get("source").stringValue(),
                    ExpressionReader.read(node.get("expression")));
            invariants[place] = made;
        }
        return made;
    }

    /** The value set of that address. */
    public ValueSetRule valueSet(String url) {
        ValueSetRule known = valueSets.get(url);
        return known != null
                ? known
                : valueSets.computeIfAbsent(url, key -> {
                    JsonNode node = compiled.get("valueSets").path(key);
                    Map<String, Set<String>> codes = new HashMap<>();
                    node.path("codes")
                            .properties()
                            .forEach(it -> codes.put(it.getKey(), new HashSet<>(strings(it.getValue()))));
                    return new ValueSetRule(key, node.has("codes"), codes, Set.copyOf(strings(node.path("takes"))));
                });
    }

    /** The code system of that address; null when its codes are not known. */
    public @Nullable CodeSystemRule codeSystem(String url) {
        CodeSystemRule known = codeSystems.get(url);
        if (known != null) {
            return known;
        }
        JsonNode node = compiled.get("codeSystems").get(url);
        return node == null ? null : codeSystems.computeIfAbsent(url, key -> codeSystem(key, node));
    }

    private static CodeSystemRule codeSystem(String url, JsonNode node) {
        boolean anyCase = node.get("anyCase").booleanValue();
        Map<String, String> displays = new HashMap<>();
        node.get("codes")
                .properties()
                .forEach(it -> displays.put(
                        anyCase ? it.getKey().toLowerCase(java.util.Locale.ROOT) : it.getKey(),
                        it.getValue().asString("")));
        return new CodeSystemRule(url, node.get("fragment").booleanValue(), anyCase, displays);
    }

    private static List<String> strings(JsonNode list) {
        List<String> strings = new ArrayList<>();
        list.forEach(it -> strings.add(it.stringValue()));
        return List.copyOf(strings);
    }
}
