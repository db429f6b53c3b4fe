/**
 * The pseudonymised form of a case, for those who audit care and need not know whose.
 */
@NullMarked
package example.tamponade.fhir.pseudonym;

import org.jspecify.annotations.NullMarked;
