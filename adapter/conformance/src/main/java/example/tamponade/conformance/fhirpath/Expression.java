package example.tamponade.conformance.fhirpath;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * An expression ready to be evaluated. Items are {@link Node}s, or what literals and functions give: {@link String}, {@link
 * java.math.BigDecimal} and {@link Boolean}.
 *
 * <p>Source: FHIRPath N1, <a href="http://hl7.org/fhirpath/N1/">hl7.org/fhirpath/N1</a>, with the additions of FHIR R4.
 */
public interface Expression {

    /**
     * Evaluates it.
     *
     * @param focus the item that names begin at, {@code $this}
     */
    List<?> evaluate(Object focus, Scope scope);

    /** Whether an invariant holds: its value is true; an empty one does not hold. */
    default boolean holds(Node focus, Scope scope) {
        Boolean value = Values.bool(evaluate(focus, scope));
        return value != null && value;
    }

    /** The single value as a string; null when there is none. */
    default @Nullable String string(Object focus, Scope scope) {
        List<?> values = evaluate(focus, scope);
        return values.size() == 1 ? Values.string(values.get(0)) : null;
    }
}
