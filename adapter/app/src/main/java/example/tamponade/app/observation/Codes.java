package example.tamponade.app.observation;

import example.tamponade.core.event.Analyte;
import example.tamponade.core.event.Coded;
import example.tamponade.fhir.terms.Terms;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.jspecify.annotations.Nullable;

/** What the code of an observation says it is, by the published concept maps. */
final class Codes {

    /** The property that holds a laboratory result. */
    static final String LABORATORY = "laboratory.value";

    /** The types of event that can be observed. */
    static final Set<String> TYPES = Set.of(
            "vital-signs",
            "blood-loss",
            "uterus-checked",
            "bleeding-checked",
            "symptoms-checked",
            "urine",
            "laboratory");

    private static final String LOINC = "http://loinc.org";

    // They have no value of their own; R4 names them for blood pressure and for a set of vital signs.
    private static final Set<String> PANELS = Set.of("85354-9", "85353-1");

    private final Terms terms;

    Codes(Terms terms) {
        this.terms = terms;
    }

    /** The properties of an event that a code can be; several when its codings contradict each other. */
    List<String> properties(CodeableConcept code) {
        return code.getCoding().stream()
                .map(this::property)
                .filter(Objects::nonNull)
                .distinct()
                .toList();
    }

    private @Nullable String property(Coding coding) {
        if (coding.getSystem() == null || coding.getCode() == null) {
            return null;
        }
        return analyte(coding) == null ? terms.eventProperty(coding.getSystem(), coding.getCode()) : LABORATORY;
    }

    /** The type of event whose readings are the components of a set; null when the code is not that of one. */
    @Nullable
    String panel(CodeableConcept code) {
        if (has(code, "bedside-item", "symptoms")) {
            return "symptoms-checked";
        }
        return code.getCoding().stream()
                        .anyMatch(it -> LOINC.equals(it.getSystem()) && PANELS.contains(String.valueOf(it.getCode())))
                ? "vital-signs"
                : null;
    }

    /** The analyte that a code names, in our code system or a standard one; null when it names none. */
    @Nullable
    String analyte(CodeableConcept code) {
        return code.getCoding().stream()
                .map(this::analyte)
                .filter(Objects::nonNull)
                .findFirst()
                .orElse(null);
    }

    private @Nullable String analyte(Coding coding) {
        return Arrays.stream(Analyte.values())
                .map(Coded::code)
                .filter(it -> terms.local("analyte", it).getCoding().stream()
                        .anyMatch(known -> known.getSystem().equals(coding.getSystem())
                                && known.getCode().equals(coding.getCode())))
                .findFirst()
                .orElse(null);
    }

    /** Whether one of the codings is that code of a code system of ours. */
    boolean has(CodeableConcept concept, String system, String code) {
        return concept.hasCoding(terms.system(system), code);
    }

    /** The address under which a kind of number is given out, for example that of cases. */
    String numbers(String kind) {
        return terms.base() + "/identifier/" + kind;
    }
}
