/** What the adapter needs of the machine that it runs on. */
@NullMarked
package example.tamponade.app.machine;

import org.jspecify.annotations.NullMarked;
