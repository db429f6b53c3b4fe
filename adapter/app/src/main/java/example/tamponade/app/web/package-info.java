/**
 * HTTP: takes events and serves the resources of a case, to those who may.
 */
@NullMarked
package example.tamponade.app.web;

import org.jspecify.annotations.NullMarked;
