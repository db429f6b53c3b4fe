/**
 * Units of measure: turns an amount in any UCUM unit into the fixed unit of the vocabulary. Exact decimal arithmetic; it
 * refuses units of another kind instead of guessing.
 */
@NullMarked
package example.tamponade.core.quantity;

import org.jspecify.annotations.NullMarked;
