package example.tamponade.core.derivation;

import static example.tamponade.core.derivation.Figures.amount;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

class CheckScheduleTest {

    private static final ZoneOffset OFFSET = ZoneOffset.ofHoursMinutes(5, 45);
    private static final ChecksDue.Tolerance TOLERANCE =
            new ChecksDue.Tolerance(Duration.ofMinutes(5), Duration.ofMinutes(5));

    @ParameterizedTest
    @CsvFileSource(resources = "/published/checks/schedules.csv", numLinesToSkip = 1)
    void givesTheDueTimes(String row, String phases, LocalTime begin, LocalTime to, String due) {
        List<CheckPhase> schedule =
                Arrays.stream(phases.split(" ")).map(CheckScheduleTest::phase).toList();

        assertThat(CheckSchedule.dueTimes(at(begin), schedule, at(to)).stream()
                        .map(it -> it.atOffset(OFFSET).toLocalTime().toString())
                        .collect(Collectors.joining(" ")))
                .isEqualTo(due);
    }

    @Test
    void hasNoNextCheckAfterTheLastPhase() {
        List<CheckPhase> schedule = List.of(new CheckPhase(Duration.ofMinutes(30), Duration.ofHours(2)));

        assertThat(CheckSchedule.nextAfter(minute(0), schedule, minute(119))).isEqualTo(minute(120));
        assertThat(CheckSchedule.nextAfter(minute(0), schedule, minute(120))).isNull();
    }

    @Test
    void refusesChecksThatNeverGetOn() {
        assertThrows(IllegalArgumentException.class, () -> new CheckPhase(Duration.ZERO, null));
        assertThrows(IllegalArgumentException.class, () -> new CheckPhase(Duration.ofMinutes(-1), null));
    }

    // Due after 15, 30 and 45 min; a turn begins 5 min before, grace is 5 min. Common practice, no source.
    @ParameterizedTest
    @CsvSource({
        "'', 14, upcoming upcoming upcoming",
        "'', 15, due upcoming upcoming",
        "'', 20, due upcoming upcoming",
        "'', 21, late upcoming upcoming",
        "'', 25, missed upcoming upcoming",
        "10, 25, done upcoming upcoming",
        "9, 25, missed upcoming upcoming",
        "20, 25, done upcoming upcoming",
        "21, 25, done-late upcoming upcoming",
        "25, 40, missed done upcoming",
        "24, 40, done-late missed upcoming",
        "12 14 29 300, 400, done done done-late",
        "'', 400, missed missed late"
    })
    void aCheckCountsForTheTurnItFallsInto(String done, long nowMin, String states) {
        List<Instant> times = Arrays.stream(done.split(" "))
                .filter(it -> !it.isEmpty())
                .map(it -> minute(Long.parseLong(it)))
                .toList();

        List<DueCheck> checks =
                ChecksDue.of(List.of(minute(15), minute(30), minute(45)), times, TOLERANCE, minute(nowMin));

        assertThat(checks.stream().map(it -> it.state().code()).collect(Collectors.joining(" ")))
                .isEqualTo(states);
        assertThat(checks).allMatch(it -> it.done() == null || times.contains(it.done()));
    }

    @Test
    void sharesWhatWasDoneOfWhatWasDue() {
        assertThat(amount(Completeness.of(10, 11)).rounded()).isEqualTo("90.9");
        assertThat(Completeness.of(0, 0)).isEqualTo(new FactValue.Missing(AbsentReason.DIVISOR_ZERO));
    }

    private static CheckPhase phase(String text) {
        String[] parts = text.split("/", -1);
        Duration until = parts[1].isEmpty() ? null : Duration.ofMinutes(Long.parseLong(parts[1]));
        return new CheckPhase(Duration.ofMinutes(Long.parseLong(parts[0])), until);
    }

    private static Instant at(LocalTime time) {
        return LocalDate.of(2026, 2, 11).atTime(time).toInstant(OFFSET);
    }

    private static Instant minute(long minute) {
        return at(LocalTime.NOON).plus(Duration.ofMinutes(minute));
    }
}
