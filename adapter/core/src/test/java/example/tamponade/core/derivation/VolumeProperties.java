package example.tamponade.core.derivation;

import static example.tamponade.core.derivation.Figures.amount;
import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;

class VolumeProperties {

    private static final Instant BEGIN = Instant.parse("2026-02-11T18:00:00Z");

    @Property(tries = 200)
    void inAndOutChangeTheSignOfTheBalance(
            @ForAll("volumes") List<TimedVolume> in, @ForAll("volumes") List<TimedVolume> out) {
        BigDecimal there = FluidBalance.of(millilitres(in), millilitres(out)).value();
        BigDecimal back = FluidBalance.of(millilitres(out), millilitres(in)).value();

        assertThat(there).isEqualByComparingTo(back.negate());
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
