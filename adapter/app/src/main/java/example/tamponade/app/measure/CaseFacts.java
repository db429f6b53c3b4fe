package example.tamponade.app.measure;

import java.math.BigDecimal;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import tools.jackson.databind.JsonNode;

/** What is on record of a case that measures ask for: derived facts and warnings that were not entered in error. */
final class CaseFacts {

    private static final Set<String> NOT_HELD = Set.of("entered-in-error", "cancelled");

    // No code has a space.
    private static final String PART = "a component";

    private final Map<String, Set<BigDecimal>> values = new TreeMap<>();
    private final Map<String, Set<String>> codes = new TreeMap<>();
    private final Set<String> flags = new HashSet<>();

    /** Adds a resource: an Observation of a derived fact, or a Flag. */
    void add(JsonNode resource) {
        if (NOT_HELD.contains(resource.path("status").asString(""))) {
            return;
        }
        for (JsonNode coding : resource.path("code").path("coding")) {
            String system = coding.path("system").asString("");
            String code = coding.path("code").asString("");
            if (system.endsWith("/CodeSystem/case-flag")) {
                flags.add(code);
            } else if (system.endsWith("/CodeSystem/derived-fact")) {
                add(code, resource);
            }
        }
    }

    private void add(String fact, JsonNode resource) {
        Set<BigDecimal> numbers = values.computeIfAbsent(fact, it -> new HashSet<>());
        if (resource.has("valueQuantity")) {
            numbers.add(resource.path("valueQuantity").path("value").decimalValue());
        }
        Set<String> words = codes.computeIfAbsent(fact, it -> new HashSet<>());
        resource.path("valueCodeableConcept")
                .path("coding")
                .forEach(it -> words.add(it.path("code").asString("")));
        for (JsonNode component : resource.path("component")) {
            if (component.path("valueBoolean").asBoolean(false)) {
                words.add(PART);
            }
        }
    }

    /** Whether there is such a fact. */
    boolean has(String fact) {
        return values.containsKey(fact);
    }

    /** Whether such a fact has a value of at most so much. */
    boolean isAtMost(String fact, long most) {
        return values.getOrDefault(fact, Set.of()).stream().anyMatch(it -> it.compareTo(BigDecimal.valueOf(most)) <= 0);
    }

    /** Whether such a fact has that code. */
    boolean is(String fact, String code) {
        return codes.getOrDefault(fact, Set.of()).contains(code);
    }

    /** Whether a component of such a fact holds. */
    boolean hasPart(String fact) {
        return is(fact, PART);
    }

    /** Whether none of these warnings was raised. */
    boolean hasNone(String... warnings) {
        return Set.of(warnings).stream().noneMatch(flags::contains);
    }
}
