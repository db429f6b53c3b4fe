/**
 * Hands on what is on record: what the outbox holds is sent to each destination, case by case, until the destination has
 * answered that it has it.
 */
@NullMarked
package example.tamponade.app.delivery;

import org.jspecify.annotations.NullMarked;
