package example.tamponade.fhir.mapping;

import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.jspecify.annotations.Nullable;

/** The standard groups of observations that ours fall into; the addresses are those of FHIR R4. */
enum Kind {
    VITAL_SIGNS("vital-signs", "Vital Signs"),
    LABORATORY("laboratory", "Laboratory"),
    EXAM("exam", "Exam"),
    PROCEDURE("procedure", "Procedure"),
    /** No standard group fits. */
    OWN(null, null);

    private static final String SYSTEM = "http://terminology.hl7.org/CodeSystem/observation-category";

    private final @Nullable String code;
    private final @Nullable String display;

    Kind(@Nullable String code, @Nullable String display) {
        this.code = code;
        this.display = display;
    }

    /** The categories of an observation: the standard group, where one fits, then ours. */
    List<CodeableConcept> categories(CodeableConcept ours) {
        return code == null
                ? List.of(ours)
                : List.of(new CodeableConcept(new Coding(SYSTEM, code, display)).setText(display), ours);
    }
}
