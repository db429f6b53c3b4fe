package example.tamponade.conformance.rules;

import java.util.List;

/**
 * A type that an element may have.
 *
 * @param code the FHIR type
 * @param profiles profiles that it must fit; empty for any
 * @param targets of a reference, the profiles of which the target must fit one; empty for any
 */
public record TypeRule(String code, List<String> profiles, List<String> targets) {}
