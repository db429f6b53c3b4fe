package example.tamponade.conformance.rules;

import example.tamponade.conformance.fhirpath.Expression;

/**
 * Something that must hold of an element.
 *
 * @param key its key, for example {@code obs-6}
 * @param error whether it is an error when it does not hold; otherwise a warning
 * @param human what it says
 * @param source the profile that it comes from
 * @param expression what is true when it holds
 */
public record Invariant(String key, boolean error, String human, String source, Expression expression) {}
