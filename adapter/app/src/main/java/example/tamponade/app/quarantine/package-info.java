/**
 * Quarantine: whatever was refused, kept whole with every reason, and what became of it since. Nothing in it is changed or
 * deleted; a correction is a further step.
 */
@NullMarked
package example.tamponade.app.quarantine;

import org.jspecify.annotations.NullMarked;
