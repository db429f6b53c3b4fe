package example.tamponade.conformance.rules;

/**
 * Where a code comes from.
 *
 * @param strength {@code required}, {@code extensible} or {@code preferred}
 * @param valueSet the value set
 */
public record Binding(String strength, ValueSetRule valueSet) {

    /** Whether another code is an error. */
    public boolean isRequired() {
        return strength.equals("required");
    }

    /** Whether another code is worth a warning. */
    public boolean isExtensible() {
        return strength.equals("extensible");
    }
}
