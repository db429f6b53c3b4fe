/**
 * From events to resources, the one way for the server, {@code convert} and the documents: fold, map, tell what differs from
 * the latest versions, check and store.
 */
@NullMarked
package example.tamponade.app.projection;

import org.jspecify.annotations.NullMarked;
