/** The compiled profiles as objects: what an element may be and what must be in it. */
@NullMarked
package example.tamponade.conformance.rules;

import org.jspecify.annotations.NullMarked;
