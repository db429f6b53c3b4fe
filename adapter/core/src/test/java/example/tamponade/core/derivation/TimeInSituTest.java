package example.tamponade.core.derivation;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.OffsetDateTime;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TimeInSituTest {

    // Second row: the clocks went forward in between; 23 h passed, not 24. Arithmetic on instants.
    @ParameterizedTest
    @CsvSource({
        "2025-03-01T22:40:00Z, 2025-03-02T20:55:00Z, 1335",
        "2025-03-29T23:30:00+01:00, 2025-03-30T23:30:00+02:00, 1380",
        "2026-02-11T23:50:00+05:45, 2026-02-12T00:20:00+05:45, 30"
    })
    void countsMinutesBetweenInstants(OffsetDateTime inserted, OffsetDateTime removed, String minutes) {
        assertThat(TimeInSitu.between(inserted.toInstant(), removed.toInstant()).rounded())
                .isEqualTo(minutes);
    }
}
