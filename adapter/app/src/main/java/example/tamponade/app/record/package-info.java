/**
 * The record: every version of every resource, stored when it passed conformance; the latest is what is served.
 */
@NullMarked
package example.tamponade.app.record;

import org.jspecify.annotations.NullMarked;
