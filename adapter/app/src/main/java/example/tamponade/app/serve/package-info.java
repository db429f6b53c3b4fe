/**
 * Starts the server and wires its parts.
 */
@NullMarked
package example.tamponade.app.serve;

import org.jspecify.annotations.NullMarked;
