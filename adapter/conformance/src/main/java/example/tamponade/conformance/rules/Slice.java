package example.tamponade.conformance.rules;

import example.tamponade.conformance.fhirpath.Expression;

/**
 * A part of an element's repetitions with rules of its own.
 *
 * @param rules its rules
 * @param match true of those that belong to it
 */
public record Slice(Rules rules, Expression match) {}
