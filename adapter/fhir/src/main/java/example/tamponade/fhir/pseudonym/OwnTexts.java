package example.tamponade.fhir.pseudonym;

import java.util.regex.Pattern;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;

/** Which texts are the adapter's own, and tell of no one: what codes and units are called, and what is always worded alike. */
final class OwnTexts {

    private static final String REMOVED = "Removed";

    // A date or an hour, whoever wrote it.
    private static final Pattern TIME = Pattern.compile("\\d{4}-\\d{2}|\\d{1,2}:\\d{2}");

    private static final Pattern OWN = Pattern.compile(String.join(
            "|",
            ".*\\.(display|unit)",
            ".*\\.extension\\((caution|flag-rule)\\)\\.value",
            "(Flag|Observation|Condition)(\\.component)?\\.code\\.text",
            "Observation(\\.component)?\\.(interpretation|dataAbsentReason|note|referenceRange)\\.text",
            "Device\\.(note\\.text|deviceName\\.name|version\\.value)"));

    private OwnTexts() {}

    /** The text that stands in place of another: the same where it is our own. */
    static String of(Base parent, String path, String text) {
        if (OWN.matcher(path).matches() && !TIME.matcher(text).find()) {
            return text;
        }
        return parent instanceof CodeableConcept concept ? display(concept, text) : REMOVED;
    }

    // What somebody wrote beside a code may be anything; what the code is called says as much as others need.
    private static String display(CodeableConcept concept, String text) {
        String display = REMOVED;
        for (Coding coding : concept.getCoding()) {
            if (text.equals(coding.getDisplay())) {
                return text;
            }
            display = coding.hasDisplay() ? coding.getDisplay() : display;
        }
        return display;
    }
}
