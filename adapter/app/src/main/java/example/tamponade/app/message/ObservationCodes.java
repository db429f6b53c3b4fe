package example.tamponade.app.message;

import example.tamponade.core.event.EventType;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Which property of an event does an observation code state? Ours name it themselves; LOINC codes are mapped by the
 * published concept map and no other way.
 */
final class ObservationCodes {

    /** How messages name our code systems: a local code of HL7 table 0396. */
    static final String OURS = "99TAM";

    /** How messages name LOINC (HL7 table 0396). */
    static final String LOINC = "LN";

    private static final JsonMapper JSON = new JsonMapper();
    private static final String FOLDER = "/example/tamponade/terminology/";

    private final Set<String> types =
            Arrays.stream(EventType.values()).map(EventType::code).collect(Collectors.toCollection(TreeSet::new));
    private final Set<String> properties = codes("event-property");
    private final Map<String, String> byLoinc = new TreeMap<>();
    private final Map<String, String> analytes = new HashMap<>();

    /** Reads the published terminology. */
    ObservationCodes() {
        elements("loinc-to-event-property")
                .forEach(it -> byLoinc.put(code(it), code(it.path("target").path(0))));
        elements("analyte-to-loinc")
                .forEach(it -> analytes.put(code(it.path("target").path(0)), code(it)));
    }

    /**
     * A property of an event.
     *
     * @param type the type of the event, for example {@code blood-loss}
     * @param path where in the event, for example {@code /data/volumeMl}
     * @param analyte which laboratory quantity the code names besides; null when it names none
     */
    record Property(String type, String path, @Nullable String analyte) {

        private static Property of(String code, @Nullable String analyte) {
            int dot = code.indexOf('.');
            return new Property(
                    code.substring(0, dot), "/data/" + code.substring(dot + 1).replace('.', '/'), analyte);
        }
    }

    /** The property that the code states; null when none is known. */
    @Nullable
    Property property(String code, String system) {
        if (system.equals(OURS) && properties.contains(code) && isOfData(code)) {
            return Property.of(code, null);
        }
        String mapped = system.equals(LOINC) ? byLoinc.get(code) : null;
        return mapped == null ? null : Property.of(mapped, analytes.get(code));
    }

    private boolean isOfData(String code) {
        int dot = code.indexOf('.');
        return dot > 0 && types.contains(code.substring(0, dot));
    }

    /** Whether an event of that type states the unit of its number in a property of its own. */
    boolean hasUnitProperty(String type) {
        return properties.contains(type + ".unit");
    }

    boolean isType(String code, String system) {
        return system.equals(OURS) && types.contains(code);
    }

    /** The types, for a remedy. */
    String knownTypes() {
        return String.join(", ", types);
    }

    /** The properties of that type and the LOINC codes that are mapped to them, for a remedy. */
    String known(@Nullable String type) {
        String prefix = type == null ? "" : type + ".";
        String ours = properties.stream()
                .filter(it -> type != null && it.startsWith(prefix))
                .sorted()
                .collect(Collectors.joining(", "));
        String loinc = byLoinc.entrySet().stream()
                .filter(it -> it.getValue().startsWith(prefix))
                .map(Map.Entry::getKey)
                .collect(Collectors.joining(", "));
        return (ours.isEmpty() ? "a code of ours (" + OURS + "), as blood-loss.volumeMl" : ours + " (" + OURS + ")")
                + (loinc.isEmpty() ? "" : ", or " + loinc + " (" + LOINC + ")");
    }

    private static Set<String> codes(String codeSystem) {
        Set<String> codes = new TreeSet<>();
        read("CodeSystem/" + codeSystem).path("concept").forEach(it -> codes.add(code(it)));
        return codes;
    }

    private static JsonNode elements(String conceptMap) {
        return read("ConceptMap/" + conceptMap).path("group").path(0).path("element");
    }

    private static String code(JsonNode concept) {
        return concept.path("code").asString("");
    }

    private static JsonNode read(String resource) {
        try (InputStream in = ObservationCodes.class.getResourceAsStream(FOLDER + resource + ".json")) {
            return JSON.readTree(Objects.requireNonNull(in, resource));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
