package example.tamponade.app.resources;

import ca.uhn.fhir.parser.LenientErrorHandler;
import ca.uhn.fhir.parser.json.BaseJsonLikeValue.ScalarType;
import ca.uhn.fhir.parser.json.BaseJsonLikeValue.ValueType;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Collects what the FHIR parser finds wrong, each with the element it found it in. */
final class ParseReasons extends LenientErrorHandler {

    private final List<Reason> reasons;

    ParseReasons(List<Reason> reasons) {
        super(false);
        this.reasons = reasons;
    }

    @Override
    public void unknownElement(@Nullable IParseLocation location, String name) {
        add(
                ReasonCode.UNKNOWN_PROPERTY,
                location,
                "R4 has no element '" + name + "' here",
                "remove it or check its name");
    }

    @Override
    public void unknownAttribute(@Nullable IParseLocation location, String name) {
        unknownElement(location, name);
    }

    @Override
    public void unexpectedRepeatingElement(@Nullable IParseLocation location, String name) {
        add(ReasonCode.INVALID_VALUE, location, "'" + name + "' can stand here only once", "write it once");
    }

    @Override
    public void missingRequiredElement(@Nullable IParseLocation location, String name) {
        add(ReasonCode.MISSING_PROPERTY, location, "'" + name + "' is missing", "add it; R4 requires it");
    }

    @Override
    public void incorrectJsonType(
            @Nullable IParseLocation location,
            String name,
            @Nullable ValueType expected,
            @Nullable ScalarType expectedScalar,
            @Nullable ValueType found,
            @Nullable ScalarType foundScalar) {
        add(
                ReasonCode.WRONG_TYPE,
                location,
                "'" + name + "' has another JSON type than R4 writes",
                "write it as R4 does: numbers and true or false without quotes, lists in brackets");
    }

    @Override
    public void invalidValue(@Nullable IParseLocation location, @Nullable String value, @Nullable String error) {
        add(
                ReasonCode.INVALID_VALUE,
                location,
                "'" + StrictReader.shortened(String.valueOf(value)) + "' does not fit: " + error,
                "write the value as R4 asks");
    }

    @Override
    public void containedResourceWithNoId(@Nullable IParseLocation location) {
        add(ReasonCode.MISSING_PROPERTY, location, "a contained resource has no id", "give it one");
    }

    @Override
    public void invalidInternalReference(@Nullable IParseLocation location, String reference) {
        add(ReasonCode.INVALID_VALUE, location, "'" + reference + "' leads nowhere", "refer to a contained resource");
    }

    private void add(ReasonCode code, @Nullable IParseLocation location, String message, String remedy) {
        String parent = location == null ? null : location.getParentElementName();
        reasons.add(new Reason(code, "", message, remedy).at(parent == null ? "the resource" : parent));
    }
}
