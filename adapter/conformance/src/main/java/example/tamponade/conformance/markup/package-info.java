/** The markup of narratives. */
@NullMarked
package example.tamponade.conformance.markup;

import org.jspecify.annotations.NullMarked;
