/**
 * The words of the record: which code systems there are, what a code is called, and which standard code says the same.
 * Read once from the published package on the class path; it holds no word of its own and guesses no code.
 */
@NullMarked
package example.tamponade.fhir.terms;

import org.jspecify.annotations.NullMarked;
