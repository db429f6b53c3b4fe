package example.tamponade.fhir.conformance;

import java.util.Arrays;

/** Where the stock validator lets pass what FHIR R4 forbids; nothing else may differ. */
enum KnownDifference {
    /** <a href="http://hl7.org/fhir/R4/json.html#repeat">JSON, repeating elements</a>: an array is never empty. */
    EMPTY_LIST_OF_PROFILES("Array cannot be empty", ".meta.profile"),
    /** <a href="http://hl7.org/fhir/R4/element.html#ele-1">Element, ele-1</a>: an id alone is no content. */
    ID_ALONE("Constraint failed: ele-1", ""),
    /** <a href="http://hl7.org/fhir/R4/datatypes.html#uri">Data types, uri</a>: no blanks, not even alone. */
    BLANK_URI("URI values cannot have whitespace(' ')", ""),
    /** <a href="http://hl7.org/fhir/R4/datatypes.html#dateTime">Data types, dateTime</a>: a blank is no time. */
    BLANK_TIME("Not a valid date/time format: ' '", ""),
    /** <a href="http://hl7.org/fhir/R4/documents.html#content">Documents</a>: what the composition names is in it. */
    UNKNOWN_TYPE_IN_DOCUMENT("Can't find ", "Composition."),
    /** <a href="http://hl7.org/fhir/R4/narrative.html#xhtml">Narrative</a>: well-formed, so every element is closed. */
    NOT_CLOSED("Error parsing XHTML: the element ", ".text.div"),
    /** <a href="http://hl7.org/fhir/R4/narrative.html#xhtml">Narrative</a>: one div, and nothing after it. */
    TEXT_OUTSIDE("Error parsing XHTML: text outside of the root", ".text.div");

    private final String message;
    private final String place;

    KnownDifference(String message, String place) {
        this.message = message;
        this.place = place;
    }

    static boolean explains(Problem problem) {
        return Arrays.stream(values())
                .anyMatch(it -> problem.message().startsWith(it.message)
                        && problem.expression().contains(it.place));
    }
}
