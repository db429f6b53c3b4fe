/**
 * The ledger: every accepted event as it came, appended once and never changed. What it returned as appended is on disk.
 */
@NullMarked
package example.tamponade.app.ledger;

import org.jspecify.annotations.NullMarked;
