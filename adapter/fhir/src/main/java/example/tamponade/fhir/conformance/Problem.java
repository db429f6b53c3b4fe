package example.tamponade.fhir.conformance;

/**
 * One thing that a check found.
 *
 * @param severity whether the resource fails by it
 * @param resource which resource, for example {@code Observation/5f0c…}; {@code line 3} where a line is not a resource
 * @param expression where in the resource, as FHIRPath, for example {@code Observation.value.ofType(Quantity).code}
 * @param message what is wrong and, for what is not JSON, what to do
 */
public record Problem(Severity severity, String resource, String expression, String message) {

    /** How much a problem weighs. */
    public enum Severity {
        /** The resource fails. */
        ERROR,
        /** The resource passes; someone should look. */
        WARNING
    }
}
