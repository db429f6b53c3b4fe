/**
 * The database: the embedded file or a PostgreSQL server, opened with its tables made. A commit is on disk when it returns.
 */
@NullMarked
package example.tamponade.app.database;

import org.jspecify.annotations.NullMarked;
