/**
 * HTTP: takes events and serves the resources of a case. Bound to loopback; it knows no users.
 */
@NullMarked
package example.tamponade.app.web;

import org.jspecify.annotations.NullMarked;
