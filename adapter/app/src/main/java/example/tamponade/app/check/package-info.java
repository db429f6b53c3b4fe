/**
 * Validates FHIR files against the profiles and prints what was found as an OperationOutcome.
 */
@NullMarked
package example.tamponade.app.check;

import org.jspecify.annotations.NullMarked;
