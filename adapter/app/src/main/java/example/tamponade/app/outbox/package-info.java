/**
 * What is on record and not delivered yet, by destination and case. It is written in the transaction that puts a resource on
 * record, so that neither is without the other.
 */
@NullMarked
package example.tamponade.app.outbox;

import org.jspecify.annotations.NullMarked;
