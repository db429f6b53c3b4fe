package example.tamponade.core.derivation;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;

class IntervalProperties {

    // A zone whose clocks change by half an hour: 5 October 2025 and 5 April 2026.
    private static final ZoneId HALF_HOUR_CHANGES = ZoneId.of("Australia/Lord_Howe");
    private static final Instant BEGIN = Instant.parse("2025-06-01T00:00:00Z");
    private static final long YEAR_MIN = 525_600;

    @Property(tries = 500)
    void clockChangesDoNotMoveTimeInSitu(
            @ForAll @LongRange(min = 0, max = YEAR_MIN) long insertedMin,
            @ForAll @LongRange(min = 0, max = 2880) long inPlaceMin) {
        ZonedDateTime inserted = BEGIN.plus(Duration.ofMinutes(insertedMin)).atZone(HALF_HOUR_CHANGES);
        ZonedDateTime removed = inserted.plus(Duration.ofMinutes(inPlaceMin));

        assertThat(TimeInSitu.between(inserted.toInstant(), removed.toInstant()).rounded())
                .isEqualByComparingTo(BigDecimal.valueOf(inPlaceMin));
    }

    @Property(tries = 200)
    void thereAndBackCancelOut(@ForAll @LongRange(min = -YEAR_MIN, max = YEAR_MIN) long milliseconds) {
        Instant to = BEGIN.plusMillis(milliseconds);

        assertThat(Interval.between(BEGIN, to).value())
                .isEqualByComparingTo(Interval.between(to, BEGIN).value().negate());
    }

    @Property(tries = 200)
    void partsAddUpToTheWhole(
            @ForAll @LongRange(min = 0, max = YEAR_MIN) long firstMs,
            @ForAll @LongRange(min = 0, max = YEAR_MIN) long thenMs) {
        Instant middle = BEGIN.plusMillis(firstMs);
        Instant end = middle.plusMillis(thenMs);

        BigDecimal parts = Interval.between(BEGIN, middle)
                .value()
                .add(Interval.between(middle, end).value());

        assertThat(parts.setScale(12, RoundingMode.HALF_UP))
                .isEqualTo(Interval.between(BEGIN, end).value().setScale(12, RoundingMode.HALF_UP));
    }
}
