package example.tamponade.app.database;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** On the command line: which database. User and password come from the environment, where no list of processes shows them. */
public final class DatabaseOptions {

    private static final String USER = "TAMPONADE_DATABASE_USER";
    private static final String PASSWORD = "TAMPONADE_DATABASE_PASSWORD";

    @Option(
            names = "--data",
            defaultValue = "${env:TAMPONADE_DATA:-data}",
            paramLabel = "DIR",
            description = "Folder of the embedded database (default: data in the working folder).")
    private Path data = Path.of("data");

    @Option(
            names = "--database",
            defaultValue = "${env:TAMPONADE_DATABASE_URL}",
            paramLabel = "URL",
            description = "A PostgreSQL database instead, jdbc:postgresql://HOST/NAME; user and password are taken from"
                    + " the environment variables " + USER + " and " + PASSWORD + ".")
    private @Nullable String url;

    /** The folder of the embedded database. */
    public Path data() {
        return data;
    }

    /** The address of the PostgreSQL database; null when the embedded one is meant. */
    public @Nullable String url() {
        return url;
    }

    /** Which database. */
    public DatabaseSettings settings() {
        return new DatabaseSettings(data, url, System.getenv(USER), System.getenv(PASSWORD));
    }
}
