package example.tamponade.core.casefile;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.EventSource;
import example.tamponade.core.event.ReadinessChecked;
import example.tamponade.core.event.Recorder;
import example.tamponade.core.event.StaffRole;
import example.tamponade.core.event.StoredSet;
import example.tamponade.core.protocol.CareProtocol;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a facility lacks, by its readiness checks. Where a comment names no source: common practice, no source. */
class FacilityRisksTest {

    private static final OffsetDateTime BEGIN = OffsetDateTime.parse("2026-03-05T08:00:00+03:00");

    @ParameterizedTest
    @CsvSource({
        "true,true,true,2026-03-05,",
        "true,true,true,,",
        "false,false,false,,not there",
        "true,false,true,,not complete",
        "true,true,false,,not within reach",
        "true,true,true,2026-03-04,past its date"
    })
    void aSetIsReadyWhenNothingIsWrongWithIt(
            boolean present,
            boolean complete,
            boolean reachable,
            @Nullable LocalDate expiry,
            @Nullable String missing) {
        List<Flag> flags = flags(check(new StoredSet(present, complete, null, expiry, reachable), 60));

        if (missing == null) {
            assertThat(flags).isEmpty();
        } else {
            assertThat(flags).singleElement().satisfies(it -> {
                assertThat(it.kind()).isEqualTo(FlagKind.TAMPONADE_SET_NOT_READY);
                assertThat(it.text()).isEqualTo("The tamponade set is " + missing + ".");
            });
        }
    }

    // Lancet Commission on Global Surgery 2015: within 2 h.
    @ParameterizedTest
    @CsvSource({"120,0", "121,1", ",1"})
    void aTheatreIsReachedInTheTimeOfThePlan(@Nullable Integer minutes, int warnings) {
        assertThat(flags(check(ready(), minutes)))
                .filteredOn(it -> it.kind() == FlagKind.THEATRE_TOO_FAR)
                .hasSize(warnings);
    }

    @Test
    void aWarningOfAFacilityEndsWithTheCheckThatFindsNothing() {
        ReadinessChecked bad = check(new StoredSet(true, false, null, null, true), 240);

        assertThat(flags(bad, bad, check(ready(), 30))).hasSize(2).allSatisfy(it -> {
            assertThat(it.start()).isEqualTo(BEGIN);
            assertThat(it.end()).isEqualTo(BEGIN.plusDays(2));
        });
    }

    private static StoredSet ready() {
        return new StoredSet(true, true, null, null, true);
    }

    private static ReadinessChecked check(StoredSet set, @Nullable Integer theatreMinutes) {
        return new ReadinessChecked(set, true, true, true, theatreMinutes);
    }

    private static List<Flag> flags(ReadinessChecked... checks) {
        List<EventEnvelope> events = IntStream.range(0, checks.length)
                .mapToObj(it -> new EventEnvelope(
                        new UUID(7, it),
                        null,
                        "quillmere",
                        BEGIN.plusDays(it),
                        BEGIN.plusDays(it),
                        new Recorder("qm-1", StaffRole.NURSE),
                        EventSource.FORM,
                        null,
                        null,
                        checks[it]))
                .toList();
        Map<FactKey, Flag> latest = new LinkedHashMap<>();
        CaseFile.of(null, CareProtocol.standard(), events).facts().stream()
                .filter(it -> it instanceof Flag flag && flag.kind().isOfFacility())
                .forEach(it -> latest.put(it.key(), (Flag) it));
        return List.copyOf(latest.values());
    }
}
