/**
 * The case file: folds the events of one case, in the order they happened, into the case's state and says at each step
 * what was derived. Late, corrected and retracted events refold from where they touch; the result never depends on the
 * order of arrival. It reads no clock: time passes only when it is told.
 */
@NullMarked
package example.tamponade.core.casefile;

import org.jspecify.annotations.NullMarked;
