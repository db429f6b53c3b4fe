/** The walk over a resource: its JSON as typed elements, and each element held to the rules of its profiles. */
@NullMarked
package example.tamponade.conformance.check;

import org.jspecify.annotations.NullMarked;
