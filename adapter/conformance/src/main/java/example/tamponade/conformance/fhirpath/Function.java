package example.tamponade.conformance.fhirpath;

import java.util.List;

/** A function of FHIRPath over its input. */
interface Function {

    /**
     * Calls it.
     *
     * @param input what stands before the dot
     * @param arguments not evaluated yet
     * @param focus {@code $this} where the function stands
     */
    List<?> call(List<?> input, List<Expression> arguments, Object focus, Scope scope);
}
