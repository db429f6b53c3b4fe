package example.tamponade.fhir.conformance.mutants;

/**
 * A resource with one thing wrong, or at least other than it was.
 *
 * @param name its source, what was done and where
 * @param kind what was done
 * @param json the text
 */
public record Mutant(String name, String kind, String json) {}
