/** From the snapshots and value sets of a FHIR package to one JSON object that a checker is built from. */
@NullMarked
package example.tamponade.conformance.compile;

import org.jspecify.annotations.NullMarked;
