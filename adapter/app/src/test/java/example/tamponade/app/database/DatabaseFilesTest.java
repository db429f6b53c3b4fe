package example.tamponade.app.database;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A connection that is opened later finds the same file or none. */
class DatabaseFilesTest {

    @Test
    void noConnectionMakesANewFileWhereItIsGone(@TempDir Path folder) throws IOException, SQLException {
        DatabaseFiles files = DatabaseFiles.in(folder);
        ask(files);
        Files.delete(files.file());

        assertThatThrownBy(() -> ask(files)).isInstanceOf(SQLException.class);
        assertThat(files.file()).doesNotExist();
    }

    private static void ask(DatabaseFiles files) throws SQLException {
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + files.address())) {
            connection.createStatement().execute("select count(*) from sqlite_master");
        }
    }
}
