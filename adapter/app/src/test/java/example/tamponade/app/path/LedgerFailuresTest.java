package example.tamponade.app.path;

import static org.assertj.core.api.Assertions.assertThat;

import java.sql.SQLException;
import org.junit.jupiter.api.Test;
import org.springframework.jdbc.UncategorizedSQLException;

class LedgerFailuresTest {

    @Test
    void doesNotBlameTheDatabaseForWhatTheAdapterDid() {
        assertThat(LedgerFailures.of(new OutOfMemoryError("Java heap space")))
                .hasMessageContaining("the adapter itself failed")
                .hasMessageContaining("Java heap space")
                .hasMessageContaining("send this again");
    }

    // PostgreSQL's error codes, appendix A of its manual: 53100 is disk_full.
    @Test
    void namesAFullDiskByItsCode() {
        LedgerFailedException told = LedgerFailures.of(
                new UncategorizedSQLException("insert", null, new SQLException("could not extend file", "53100")));

        assertThat(told.full()).isTrue();
        assertThat(told).hasMessageContaining("free space");
    }
}
