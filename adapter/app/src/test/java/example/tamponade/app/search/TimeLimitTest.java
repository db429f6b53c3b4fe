package example.tamponade.app.search;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The table of prefixes in FHIR R4, <a href="http://hl7.org/fhir/R4/search.html#prefix">Search, prefixes</a>, row by row, from
 * memory. A span without an end goes on for ever; what stands here without an offset is in UTC.
 */
class TimeLimitTest {

    @ParameterizedTest
    @CsvSource({
        "eq2013-01-14, 2013-01-14T00:00, 2013-01-14T00:00, true",
        "eq2013-01-14, 2013-01-14T10:00, 2013-01-14T10:00, true",
        "eq2013-01-14, 2013-01-15T00:00, 2013-01-15T00:00, false",
        "ne2013-01-14, 2013-01-15T00:00, 2013-01-15T00:00, true",
        "ne2013-01-14, 2013-01-14T00:00, 2013-01-14T00:00, false",
        "ne2013-01-14, 2013-01-14T10:00, 2013-01-14T10:00, false",
        "lt2013-01-14T10:00:00Z, 2013-01-14T00:00, 2013-01-14T23:59, true",
        "gt2013-01-14T10:00:00Z, 2013-01-14T00:00, 2013-01-14T23:59, true",
        "ge2013-03-14, 2013-01-21T00:00, , true",
        "le2013-03-14, 2013-01-21T00:00, , true",
        "sa2013-03-14, 2013-03-15T00:00, , true",
        "sa2013-03-14, 2013-01-21T00:00, , false",
        "sa2013-03-14, , 2013-01-21T23:59, false",
        "eb2013-03-14, 2013-03-15T00:00, , false",
        "eb2013-03-14, 2013-01-21T00:00, , false",
        "eb2013-03-14, , 2013-01-21T23:59, true",
        "eq2013-01-14T23:00:00-03:00, 2013-01-15T02:00, 2013-01-15T02:00, true"
    })
    void findsWhatTheStandardSays(String limit, LocalDateTime from, LocalDateTime to, boolean isFound)
            throws SQLException {
        TimeLimit read = TimeLimit.of("date", limit);
        String condition = read.prefix()
                .condition(
                        Long.toString(from == null ? Long.MIN_VALUE + 1 : millis(from)),
                        Long.toString(to == null ? Long.MAX_VALUE : millis(to)),
                        Long.toString(read.span().low()),
                        Long.toString(read.span().high()));
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite::memory:");
                Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery("select " + condition)) {
            assertThat(row.getBoolean(1)).isEqualTo(isFound);
        }
    }

    private static long millis(LocalDateTime time) {
        return time.toInstant(ZoneOffset.UTC).toEpochMilli();
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "tonight", "ap2013-01-14", "2013-13-01", "2013-02-30", "ge", "ge 2013"})
    void refusesWhatIsNoTime(String text) {
        assertThatThrownBy(() -> TimeLimit.of("date", text))
                .isInstanceOf(SearchRefusedException.class)
                .hasMessageContaining("date: ");
    }
}
