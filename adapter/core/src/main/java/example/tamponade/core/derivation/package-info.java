/**
 * The formulas: one pure function a class, plain values in; out comes a value with its unit or the reason why there is
 * none, a grade, or a time. They know no clock, keep no state and hold no threshold; thresholds come from the care
 * protocol.
 */
@NullMarked
package example.tamponade.core.derivation;

import org.jspecify.annotations.NullMarked;
