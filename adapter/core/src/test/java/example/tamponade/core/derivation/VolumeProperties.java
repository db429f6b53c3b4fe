package example.tamponade.core.derivation;

import static example.tamponade.core.derivation.Figures.amount;
import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import org.assertj.core.data.Offset;

class VolumeProperties {

    private static final Instant BEGIN = Instant.parse("2026-02-11T18:00:00Z");

    @Property(tries = 200)
    void inAndOutChangeTheSignOfTheBalance(
            @ForAll("volumes") List<TimedVolume> in, @ForAll("volumes") List<TimedVolume> out) {
        BigDecimal there = FluidBalance.of(millilitres(in), millilitres(out)).value();
        BigDecimal back = FluidBalance.of(millilitres(out), millilitres(in)).value();

        assertThat(there).isEqualByComparingTo(back.negate());
    }

    // Counted minute by minute: what a set of minutes holds is the reference.
    @Property(tries = 300)
    void collectionsThatOverlapCountEachTimeOnce(@ForAll("minutes") List<int[]> collections) {
        Set<Integer> minutes = new HashSet<>();
        CoveredTime covered = CoveredTime.NONE;
        for (int[] one : collections) {
            UrineCollection collection = new UrineCollection(
                    BEGIN.plusSeconds(60L * one[0]),
                    BEGIN.plusSeconds(60L * (one[0] + one[1])),
                    BigDecimal.valueOf(one[1] * 10L));
            List<UrineCollection> parts = covered.uncovered(collection);
            int before = minutes.size();
            for (int minute = one[0]; minute < one[0] + one[1]; minute++) {
                minutes.add(minute);
            }
            int fresh = minutes.size() - before;

            assertThat(parts.stream().mapToLong(it -> it.length().toMinutes()).sum())
                    .isEqualTo(fresh);
            assertThat(parts.stream().map(UrineCollection::volumeMl).reduce(BigDecimal.ZERO, BigDecimal::add))
                    .isCloseTo(BigDecimal.valueOf(fresh * 10L), Offset.offset(new BigDecimal("1e-9")));
            assertThat(covered.overlaps(collection)).isEqualTo(fresh < one[1]);
            covered = covered.with(collection);
        }
    }

    @Provide
    Arbitrary<List<int[]>> minutes() {
        return Combinators.combine(
                        Arbitraries.integers().between(0, 60),
                        Arbitraries.integers().between(1, 30))
                .as((from, length) -> new int[] {from, length})
                .list()
                .ofMaxSize(8);
    }

    @Property(tries = 200)
    void windowsThatAdjoinCountEveryVolumeOnce(
            @ForAll("volumes") List<TimedVolume> volumes, @ForAll @IntRange(min = 1, max = 600) int minutes) {
        Duration half = Duration.ofMinutes(minutes);
        Instant until = BEGIN.plus(half).plus(half);

        BigDecimal halves = TrailingVolume.of(volumes, until.minus(half), half)
                .value()
                .add(TrailingVolume.of(volumes, until, half).value());

        assertThat(halves)
                .isEqualByComparingTo(
                        TrailingVolume.of(volumes, until, half.plus(half)).value());
    }

    @Property(tries = 200)
    void aWindowOverEverythingIsTheMeanRate(@ForAll("volumes") List<TimedVolume> hourly) {
        List<UrineCollection> collections = new ArrayList<>();
        for (int i = 0; i < hourly.size(); i++) {
            Instant from = BEGIN.plus(Duration.ofHours(i));
            collections.add(new UrineCollection(
                    from, from.plus(Duration.ofHours(1)), hourly.get(i).volumeMl()));
        }
        Duration all = Duration.ofHours(hourly.size());

        FactValue rolling = UrineInWindow.of(collections, BEGIN.plus(all), all.plus(all));

        if (hourly.isEmpty()) {
            assertThat(rolling).isEqualTo(new FactValue.Missing(AbsentReason.INPUT_MISSING));
        } else {
            BigDecimal totalMl = FluidBalance.of(millilitres(hourly), List.of()).value();
            assertThat(amount(rolling).value())
                    .isEqualByComparingTo(
                            amount(UrineRate.perHour(totalMl, all)).value());
        }
    }

    @Provide
    Arbitrary<List<TimedVolume>> volumes() {
        Arbitrary<Integer> minutes = Arbitraries.integers().between(-600, 1200);
        Arbitrary<Integer> volumesMl = Arbitraries.integers().between(0, 700);
        return Combinators.combine(minutes, volumesMl)
                .as((minute, volumeMl) ->
                        new TimedVolume(BEGIN.plus(Duration.ofMinutes(minute)), BigDecimal.valueOf(volumeMl)))
                .list()
                .ofMaxSize(20);
    }

    private static List<BigDecimal> millilitres(List<TimedVolume> volumes) {
        return volumes.stream().map(TimedVolume::volumeMl).toList();
    }
}
