/**
 * The program: its command line and the wiring. What it does lies in the feature packages below; {@code path} shows the
 * way of an event through them.
 */
@NullMarked
package example.tamponade.app;

import org.jspecify.annotations.NullMarked;
