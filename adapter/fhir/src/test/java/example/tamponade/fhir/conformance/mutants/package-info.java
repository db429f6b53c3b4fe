/** Resources with one thing wrong, to hold the compiled profiles and the stock validator to the same verdicts. */
@NullMarked
package example.tamponade.fhir.conformance.mutants;

import org.jspecify.annotations.NullMarked;
