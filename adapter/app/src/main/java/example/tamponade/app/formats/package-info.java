/**
 * The formats that can be handed in, by media type, by file name and by name. What reads one is in its own package.
 */
@NullMarked
package example.tamponade.app.formats;

import org.jspecify.annotations.NullMarked;
