/**
 * The way of an event from the bytes that came to the resources that are served.
 */
@NullMarked
package example.tamponade.app.path;

import org.jspecify.annotations.NullMarked;
