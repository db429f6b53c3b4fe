package example.tamponade.conformance;

/**
 * One thing that is wrong with a resource.
 *
 * @param severity whether the resource fails by it
 * @param resource which resource, as {@code Type/id} or its type alone; in a bundle the innermost
 * @param expression where in that resource, as FHIRPath, for example {@code Observation.value.ofType(Quantity).code}
 * @param message the rule that it breaks
 */
public record Finding(Severity severity, String resource, String expression, String message) {

    /** How much a finding weighs. */
    public enum Severity {
        /** The resource fails. */
        ERROR,
        /** The resource passes; someone should look. */
        WARNING
    }
}
