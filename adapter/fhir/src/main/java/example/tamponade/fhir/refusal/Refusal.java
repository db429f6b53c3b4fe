package example.tamponade.fhir.refusal;

/**
 * One reason why something was not accepted.
 *
 * @param code code of the refusal code system, for example {@code not-in-list}
 * @param expression where it stands in what was sent
 * @param message what is wrong; never a patient's data beyond the offending value
 * @param remedy what the sender can do
 * @param severity how much it weighs
 */
public record Refusal(String code, String expression, String message, String remedy, Severity severity) {

    /** How much a reason weighs. */
    public enum Severity {
        /** Nothing of what was sent could be read. */
        FATAL,
        /** The event was not accepted. */
        ERROR,
        /** It was accepted; someone should look. */
        WARNING
    }
}
