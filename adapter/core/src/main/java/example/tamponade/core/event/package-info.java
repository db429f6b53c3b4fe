/**
 * The event vocabulary: what can be written down at the bedside, as records with units in their names. Data only; it
 * reads no format and judges no value.
 */
@NullMarked
package example.tamponade.core.event;

import org.jspecify.annotations.NullMarked;
