/**
 * Deals with what is in quarantine: sends a correction the way of any event, or sets an entry aside; each attempt joins the
 * entry's history.
 */
@NullMarked
package example.tamponade.app.correction;

import org.jspecify.annotations.NullMarked;
