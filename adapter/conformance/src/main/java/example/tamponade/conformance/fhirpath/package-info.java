/** FHIRPath as the invariants of profiles use it: parsed when profiles are compiled, evaluated without a parser. */
@NullMarked
package example.tamponade.conformance.fhirpath;

import org.jspecify.annotations.NullMarked;
