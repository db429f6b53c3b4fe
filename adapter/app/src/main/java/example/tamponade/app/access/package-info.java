/** Who may do what, and who did what: callers with their roles and scopes, what of the record they see, and the access log. */
@NullMarked
package example.tamponade.app.access;

import org.jspecify.annotations.NullMarked;
