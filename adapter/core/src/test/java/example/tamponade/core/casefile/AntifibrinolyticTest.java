package example.tamponade.core.casefile;

import static example.tamponade.core.casefile.Bedside.birth;
import static example.tamponade.core.casefile.Bedside.bleeding;
import static example.tamponade.core.casefile.Bedside.event;
import static example.tamponade.core.casefile.Bedside.given;
import static example.tamponade.core.casefile.Bedside.minute;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.event.BleedingAmount;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.MedicineGiven;
import example.tamponade.core.event.Substance;
import example.tamponade.core.protocol.CareProtocol;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * First dose within 3 h of birth; a second when bleeding goes on after 30 min or begins again within 24 h: WHO
 * recommendation on tranexamic acid, 2017; WOMAN trial collaborators, Lancet 2017, PMC5446563.
 */
class AntifibrinolyticTest {

    private static final int DAY = 24 * 60;

    @Test
    void aFirstDoseAfterThreeHoursIsLate() {
        assertThat(flags(FlagKind.ANTIFIBRINOLYTIC_LATE, 500, event("dose", 180, dose())))
                .isEmpty();
        assertThat(flags(FlagKind.ANTIFIBRINOLYTIC_LATE, 500, event("dose", 181, dose())))
                .containsExactly("181-null");
        assertThat(flags(FlagKind.ANTIFIBRINOLYTIC_LATE, 500, event("dose", -5, dose())))
                .isEmpty();
    }

    @Test
    void bleedingThatGoesOnAfterHalfAnHourCallsForASecond() {
        assertThat(due(500, check(39, BleedingAmount.HEAVY))).containsExactly("40-null");
        assertThat(due(500, check(40, BleedingAmount.MODERATE))).containsExactly("40-null");
        assertThat(due(500, check(40, BleedingAmount.LIGHT))).isEmpty();
        assertThat(due(500, check(20, BleedingAmount.HEAVY), check(35, BleedingAmount.LIGHT)))
                .isEmpty();
        assertThat(due(500, check(50, BleedingAmount.HEAVY), check(70, BleedingAmount.NONE)))
                .containsExactly("50-70");
    }

    @Test
    void bleedingThatBeginsAgainWithinADayCallsForASecond() {
        assertThat(due(3000, check(60, BleedingAmount.NONE), check(10 + DAY, BleedingAmount.HEAVY)))
                .containsExactly(10 + DAY + "-null");
        assertThat(due(3000, check(60, BleedingAmount.NONE), check(11 + DAY, BleedingAmount.HEAVY)))
                .isEmpty();
    }

    @Test
    void aSecondDoseAnswersItAndIsNotToComeTooSoon() {
        EventEnvelope heavy = check(50, BleedingAmount.HEAVY);
        assertThat(due(500, heavy, event("second", 55, dose()), check(60, BleedingAmount.HEAVY)))
                .containsExactly("50-55");
        assertThat(early(event("second", 39, dose()))).containsExactly("39-null");
        assertThat(early(event("second", 40, dose()))).isEmpty();
    }

    @Test
    void whoCountsFromTheEndOfTheFirstDoseSaysHowLongItLasts() {
        CareProtocol fromEnd = CareProtocol.read("from-end", standard().replaceFirst("value: 0\\R", "value: 10\n"));
        EventEnvelope heavy = check(45, BleedingAmount.HEAVY);

        assertThat(flags(fromEnd, FlagKind.ANTIFIBRINOLYTIC_SECOND_DUE, 500, first(), heavy))
                .containsExactly("50-null");
    }

    private static List<String> due(int now, EventEnvelope... events) {
        return flags(FlagKind.ANTIFIBRINOLYTIC_SECOND_DUE, now, withFirst(events));
    }

    private static List<String> early(EventEnvelope... events) {
        return flags(FlagKind.ANTIFIBRINOLYTIC_SECOND_TOO_EARLY, 500, withFirst(events));
    }

    private static EventEnvelope[] withFirst(EventEnvelope... events) {
        List<EventEnvelope> all = new ArrayList<>(List.of(first()));
        all.addAll(Arrays.asList(events));
        return all.toArray(EventEnvelope[]::new);
    }

    private static EventEnvelope first() {
        return event("first", 10, dose());
    }

    private static MedicineGiven dose() {
        return given(Substance.TRANEXAMIC_ACID, 1, "g");
    }

    private static EventEnvelope check(int minute, BleedingAmount amount) {
        return event("check at " + minute, minute, bleeding(amount));
    }

    private static List<String> flags(FlagKind kind, int now, EventEnvelope... events) {
        return flags(CareProtocol.standard(), kind, now, events);
    }

    // Each as its begin and end in minutes after birth.
    private static List<String> flags(CareProtocol protocol, FlagKind kind, int now, EventEnvelope... events) {
        List<EventEnvelope> all = new ArrayList<>(List.of(event("birth", 0, birth(0))));
        all.addAll(Arrays.asList(events));
        return CaseFile.of(Bedside.CASE, protocol, all).advanceTo(minute(now)).after().facts().stream()
                .filter(it -> it instanceof Flag flag && flag.kind() == kind)
                .map(Flag.class::cast)
                .map(it -> minutes(it.start()) + "-" + (it.end() == null ? null : minutes(it.end())))
                .toList();
    }

    private static long minutes(java.time.OffsetDateTime time) {
        return java.time.Duration.between(minute(0), time).toMinutes();
    }

    private static String standard() {
        try (var in = CareProtocol.class.getResourceAsStream("standard-protocol.yaml")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
