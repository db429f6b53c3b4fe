package example.tamponade.core.derivation;

import static example.tamponade.core.derivation.Figures.amount;
import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;

class CheckScheduleProperties {

    private static final Instant BEGIN = Instant.parse("2026-02-11T18:15:00Z");
    private static final EnumSet<DueCheck.State> DONE = EnumSet.of(DueCheck.State.DONE, DueCheck.State.DONE_LATE);

    @Property(tries = 300)
    void dueTimesRiseAndLieWithinTheSchedule(
            @ForAll("phases") List<CheckPhase> phases, @ForAll @IntRange(min = 0, max = 2000) int toMin) {
        Instant to = minute(toMin);

        List<Instant> due = CheckSchedule.dueTimes(BEGIN, phases, to);

        for (int i = 1; i < due.size(); i++) {
            assertThat(due.get(i)).isAfter(due.get(i - 1));
        }
        assertThat(due).allMatch(it -> it.isAfter(BEGIN) && !it.isAfter(to));
    }

    @Property(tries = 300)
    void theNextIsTheFirstThatFollows(
            @ForAll("phases") List<CheckPhase> phases, @ForAll @IntRange(min = -60, max = 1500) int afterMin) {
        Instant after = minute(afterMin);
        Instant next = CheckSchedule.nextAfter(BEGIN, phases, after);

        List<Instant> following = CheckSchedule.dueTimes(BEGIN, phases, minute(3000)).stream()
                .filter(it -> it.isAfter(after))
                .toList();

        assertThat(following.isEmpty() ? null : following.get(0)).isEqualTo(next);
    }

    @Property(tries = 300)
    void oneCheckNeverCountsForTwo(
            @ForAll("phases") List<CheckPhase> phases,
            @ForAll("minutes") List<Integer> doneMin,
            @ForAll @IntRange(min = 0, max = 1500) int nowMin) {
        List<Instant> due = CheckSchedule.dueTimes(BEGIN, phases, minute(nowMin));
        List<Instant> done = doneMin.stream().map(it -> minute(it)).toList();
        ChecksDue.Tolerance tolerance = new ChecksDue.Tolerance(Duration.ofMinutes(5), Duration.ofMinutes(5));

        List<DueCheck> checks = ChecksDue.of(due, done, tolerance, minute(nowMin));
        List<Instant> counted =
                checks.stream().map(DueCheck::done).filter(Objects::nonNull).toList();

        assertThat(checks).extracting(DueCheck::due).isEqualTo(due);
        assertThat(counted).doesNotHaveDuplicates().allMatch(done::contains);
        assertThat(checks.stream().filter(it -> DONE.contains(it.state()))).hasSameSizeAs(counted);
        if (!checks.isEmpty()) {
            assertThat(amount(Completeness.of(counted.size(), checks.size())).value())
                    .isBetween(BigDecimal.ZERO, new BigDecimal(100));
        }
    }

    @Provide
    Arbitrary<List<Integer>> minutes() {
        return Arbitraries.integers().between(-30, 1500).list().ofMaxSize(30);
    }

    // Up to four phases of 5 to 120 min intervals; the last has no end in half of them.
    @Provide
    Arbitrary<List<CheckPhase>> phases() {
        Arbitrary<List<Integer>> numbers =
                Arbitraries.integers().between(5, 120).list().ofMinSize(2).ofMaxSize(9);
        return numbers.map(CheckScheduleProperties::phases);
    }

    private static List<CheckPhase> phases(List<Integer> numbers) {
        List<CheckPhase> phases = new ArrayList<>();
        Duration end = Duration.ZERO;
        for (int i = 0; i + 1 < numbers.size(); i += 2) {
            end = end.plus(Duration.ofMinutes(3L * numbers.get(i + 1)));
            phases.add(new CheckPhase(Duration.ofMinutes(numbers.get(i)), end));
        }
        if (numbers.size() % 2 == 1) {
            phases.add(new CheckPhase(Duration.ofMinutes(numbers.get(numbers.size() - 1)), null));
        }
        return phases;
    }

    private static Instant minute(int minute) {
        return BEGIN.plus(Duration.ofMinutes(minute));
    }
}
