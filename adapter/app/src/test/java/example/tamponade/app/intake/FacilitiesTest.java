package example.tamponade.app.intake;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.intake.Facilities.Facility;
import example.tamponade.app.intake.Facilities.Placing;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FacilitiesTest {

    private static final Facilities FACILITIES = new Facilities(
            Map.of(
                    "fernglade-hp", new Facility(ZoneId.of("+05:45"), null),
                    "quillmere-bp", new Facility(ZoneId.of("Europe/Berlin"), null),
                    "nowhere-hp", new Facility(null, null)),
            null);

    // Changes of the clocks in Berlin: IANA time zone database, rule EU (last Sundays of March and October, 01:00 UTC).
    @ParameterizedTest
    @CsvSource({
        "fernglade-hp, 2026-02-11T22:58,    2026-02-11T22:58:00+05:45",
        "quillmere-bp, 2026-03-29T01:59:59, 2026-03-29T01:59:59+01:00",
        "quillmere-bp, 2026-03-29T03:00,    2026-03-29T03:00:00+02:00",
        "quillmere-bp, 2026-10-25T01:59:59, 2026-10-25T01:59:59+02:00",
        "quillmere-bp, 2026-10-25T03:00,    2026-10-25T03:00:00+01:00",
    })
    void placesALocalTimeByTheFacilitysClock(String facility, LocalDateTime local, OffsetDateTime time) {
        assertThat(FACILITIES.place(facility, local)).isEqualTo(new Placing.Placed(time));
    }

    @ParameterizedTest
    @CsvSource({
        "quillmere-bp, 2026-03-29T02:30, never, +01:00",
        "quillmere-bp, 2026-03-29T02:00, never, +02:00",
        "quillmere-bp, 2026-10-25T02:30, twice, +02:00",
        "nowhere-hp,   2026-02-11T22:58, no zone is known, offset",
        "unknown-hp,   2026-02-11T22:58, no zone is known, zone set",
    })
    void refusesALocalTimeThatItCannotPlace(String facility, LocalDateTime local, String message, String remedy) {
        Placing.NotPlaced placing = (Placing.NotPlaced) FACILITIES.place(facility, local);

        assertThat(placing.message()).contains(message);
        assertThat(placing.remedy()).contains(remedy);
        assertThat(placing.reason("/occurredAt").code()).isEqualTo(ReasonCode.TIME_WITHOUT_OFFSET);
    }

    @Test
    void takesTheZoneOfAllForAFacilityThatNamesNone() {
        Facilities facilities = new Facilities(FACILITIES.byId(), ZoneId.of("-03:30"));

        assertThat(facilities.place("nowhere-hp", LocalDateTime.parse("2026-04-19T02:10:00")))
                .isEqualTo(new Placing.Placed(OffsetDateTime.parse("2026-04-19T02:10:00-03:30")));
    }
}
