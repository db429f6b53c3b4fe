/**
 * Intake: bytes of one event in, a typed event out, or a refusal with every reason, its place and its remedy. It checks
 * shape by the published schema, units by conversion and values by the care protocol. It stores nothing.
 */
@NullMarked
package example.tamponade.app.intake;

import org.jspecify.annotations.NullMarked;
