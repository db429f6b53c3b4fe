/** The adapter's own keys, by which others know it. */
@NullMarked
package example.tamponade.app.keys;

import org.jspecify.annotations.NullMarked;
