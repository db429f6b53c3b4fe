/**
 * Refusals as FHIR has them. What was refused, where and what to do comes in; an OperationOutcome goes out. It decides
 * nothing: what is refused is the business of the intake and the care protocol.
 */
@NullMarked
package example.tamponade.fhir.refusal;

import org.jspecify.annotations.NullMarked;
