/** Events from one adapter to another where there is no network: a folder with a manifest, taken whole or not at all. */
@NullMarked
package example.tamponade.app.carry;

import org.jspecify.annotations.NullMarked;
