package example.tamponade.app.database;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/**
 * Which database.
 *
 * @param folder the folder of the embedded database; not used when there is a url
 * @param url JDBC address of a PostgreSQL database, for example {@code jdbc:postgresql://localhost/tamponade}; absent: the
 *     embedded database
 * @param user its user; absent: what the address says
 * @param password its password; absent: what the address says
 */
public record DatabaseSettings(
        Path folder,
        @Nullable String url,
        @Nullable String user,
        @Nullable String password) {

    @Override
    public String toString() {
        return url == null ? "the database in " + folder : "the database " + url.split("\\?", 2)[0];
    }
}
