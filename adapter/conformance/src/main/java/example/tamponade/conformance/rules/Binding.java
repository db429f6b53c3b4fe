package example.tamponade.conformance.rules;

import org.jspecify.annotations.Nullable;

/**
 * Where a code comes from.
 *
 * @param strength {@code required}, {@code extensible} or {@code preferred}
 * @param valueSet the value set
 * @param base where FHIR R4 itself takes the code from, if it is another value set
 */
public record Binding(
        String strength, ValueSetRule valueSet, @Nullable Binding base) {

    /** Whether another code is an error. */
    public boolean isRequired() {
        return strength.equals("required");
    }

    /** Whether another code is worth a warning. */
    public boolean isExtensible() {
        return strength.equals("extensible");
    }
}
