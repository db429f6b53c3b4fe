/** The warnings that stand, as cards in the system that a clinician has open. */
@NullMarked
package example.tamponade.app.cards;

import org.jspecify.annotations.NullMarked;
