package example.tamponade.fhir.terms;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.jspecify.annotations.Nullable;

/**
 * What is a code called, and which standard code says the same?
 *
 * <p>Immutable and safe for several threads; every call gives a new object that the caller may change.
 */
public final class Terms {

    private final String base;
    private final String version;
    private final Map<String, Map<String, String>> displays;
    private final Map<String, List<Coding>> standard;
    private final Map<String, String> properties;
    private final Set<String> profiles;

    Terms(
            String base,
            String version,
            Map<String, Map<String, String>> displays,
            Map<String, List<Coding>> standard,
            Map<String, String> properties,
            Set<String> profiles) {
        this.base = base;
        this.version = version;
        this.displays = displays;
        this.standard = standard;
        this.properties = properties;
        this.profiles = profiles;
    }

    /**
     * Reads the published package on the class path.
     *
     * @throws UncheckedIOException when the package is missing or damaged
     */
    public static Terms read() {
        return TermsReader.read();
    }

    /** The canonical base, without a slash at the end: what every address of ours begins with. */
    public String base() {
        return base;
    }

    /** The version of the published package, for example {@code 0.1.0}. */
    public String version() {
        return version;
    }

    /** The address of a code system of ours by its id, for example {@code bedside-item}. */
    public String system(String id) {
        return base + "/CodeSystem/" + id;
    }

    /** The ids of the profiles of resources, for example {@code mother}. */
    public Set<String> profiles() {
        return profiles;
    }

    /** The address of a profile or extension of ours by its id. */
    public String profile(String id) {
        return base + "/StructureDefinition/" + id;
    }

    /**
     * A concept of ours: the standard codes that say the same first, our code second, and the display as text.
     *
     * @param id the code system's id, for example {@code analyte}
     * @throws IllegalArgumentException when the code system has no such code
     */
    public CodeableConcept local(String id, String code) {
        return concept(system(id), code);
    }

    /**
     * A concept of any code system of the package; the display is its text.
     *
     * @param system the code system's address
     * @throws IllegalArgumentException when the code system has no such code
     */
    public CodeableConcept concept(String system, String code) {
        CodeableConcept concept = new CodeableConcept();
        standard.getOrDefault(system + "|" + code, List.of()).forEach(it -> concept.addCoding(it.copy()));
        return concept.addCoding(coding(system, code)).setText(display(system, code));
    }

    /**
     * One code of any code system of the package, with its display.
     *
     * @throws IllegalArgumentException when the code system has no such code
     */
    public Coding coding(String system, String code) {
        return new Coding(system, code, display(system, code));
    }

    /**
     * What a clinician calls the code.
     *
     * @throws IllegalArgumentException when the code system has no such code
     */
    public String display(String system, String code) {
        String display = displays.getOrDefault(system, Map.of()).get(code);
        if (display == null) {
            throw new IllegalArgumentException("no code " + code + " in " + system);
        }
        return display;
    }

    /**
     * The property of a bedside event that a reading with that code states, as in the event-property code system, for
     * example {@code vital-signs.pulse}; null when none is mapped.
     */
    public @Nullable String eventProperty(String system, String code) {
        return properties.get(system + "|" + code);
    }

    /** Whether the code system of the package has that code. */
    public boolean has(String system, String code) {
        return displays.getOrDefault(system, Map.of()).containsKey(code);
    }
}
