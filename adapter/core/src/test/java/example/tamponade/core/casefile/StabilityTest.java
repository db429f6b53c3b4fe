package example.tamponade.core.casefile;

import static example.tamponade.core.casefile.Bedside.bleeding;
import static example.tamponade.core.casefile.Bedside.drained;
import static example.tamponade.core.casefile.Bedside.event;
import static example.tamponade.core.casefile.Bedside.filled;
import static example.tamponade.core.casefile.Bedside.inserted;
import static example.tamponade.core.casefile.Bedside.minute;
import static example.tamponade.core.casefile.Bedside.outcome;
import static example.tamponade.core.casefile.Bedside.watched;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.event.BleedingAmount;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.MotherOutcome;
import example.tamponade.core.protocol.CareProtocol;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Before deflation she was seen to be stable. Bleeding is controlled at minute 5; the standard protocol asks for 12 h, with
 * checks every 15 min for 2 h, every 30 min for 1 h and then every 60 min. Common practice, no source.
 */
class StabilityTest {

    private static final int CONTROL = 5;
    private static final int LONG_ENOUGH = CONTROL + 12 * 60;

    @Test
    void nobodyHavingLookedIsNoSignOfStability() {
        CaseFile file = at(2000, List.of());

        assertThat(flags(file, FlagKind.DEFLATION_MAY_BEGIN)).isEmpty();
        assertThat(flags(file, FlagKind.STABILITY_NOT_SHOWN)).singleElement().satisfies(it -> {
            assertThat(it.start()).isEqualTo(minute(LONG_ENOUGH));
            assertThat(it.end()).isNull();
            assertThat(it.text()).contains("bleeding, pulse, blood pressure, fundus");
        });
        assertThat(flags(at(LONG_ENOUGH, List.of()), FlagKind.STABILITY_NOT_SHOWN))
                .isEmpty();
    }

    @Test
    void whoIsLookedAtIsSeenToBeStable() {
        CaseFile file = at(LONG_ENOUGH + 1, watched(35, LONG_ENOUGH - 1, 30));

        assertThat(flags(file, FlagKind.STABILITY_NOT_SHOWN)).isEmpty();
        assertThat(flags(file, FlagKind.DEFLATION_MAY_BEGIN))
                .singleElement()
                .satisfies(it -> assertThat(it.start()).isEqualTo(minute(LONG_ENOUGH)));
    }

    // From minute 300 to 421 is more than two intervals of 60 min.
    @ParameterizedTest
    @ValueSource(strings = {"bleeding", "pulse", "pressure", "fundus"})
    void aSignThatWasLeftOutIsNamedAndCountsFromWhenItWasLookedAtAgain(String sign) {
        List<EventEnvelope> checks = new ArrayList<>(watched(35, 300, 5));
        checks.addAll(
                watched(301, 420, 10).stream().filter(it -> !name(it, sign)).toList());
        checks.addAll(watched(421, 1400, 30));

        CaseFile file = at(1400, checks);

        assertThat(flags(file, FlagKind.STABILITY_NOT_SHOWN)).singleElement().satisfies(it -> {
            assertThat(it.start()).isEqualTo(minute(LONG_ENOUGH));
            assertThat(it.end()).isEqualTo(minute(421 + 12 * 60));
            assertThat(it.text())
                    .endsWith("Not looked at often enough: " + sign.replace("pressure", "blood pressure") + ".");
        });
        assertThat(flags(file, FlagKind.DEFLATION_MAY_BEGIN))
                .singleElement()
                .satisfies(it -> assertThat(it.start()).isEqualTo(minute(421 + 12 * 60)));
    }

    @Test
    void twoIntervalsAreNoGap() {
        List<EventEnvelope> checks = new ArrayList<>(watched(35, 300, 5));
        checks.addAll(watched(420, 1400, 30));

        assertThat(flags(at(1400, checks), FlagKind.STABILITY_NOT_SHOWN)).isEmpty();
    }

    @Test
    void whatWasAllowedIsNotWhenNobodyLooksAnyMore() {
        CaseFile file = at(LONG_ENOUGH + 500, watched(35, LONG_ENOUGH, 30));

        assertThat(flags(file, FlagKind.DEFLATION_MAY_BEGIN))
                .singleElement()
                .satisfies(it -> assertThat(it.end()).isEqualTo(minute(LONG_ENOUGH + 120)));
        assertThat(flags(file, FlagKind.STABILITY_NOT_SHOWN))
                .singleElement()
                .satisfies(it -> assertThat(it.start()).isEqualTo(minute(LONG_ENOUGH + 120)));
    }

    // What is done behind a closing is judged as before it; nothing is awaited any more.
    @Test
    void deflationBehindAClosingIsTooEarlyOnlyWithoutIt() {
        List<EventEnvelope> seen = new ArrayList<>(watched(35, LONG_ENOUGH, 30));
        seen.add(event("end", 20, outcome(MotherOutcome.RECOVERED)));
        seen.add(event("drain", LONG_ENOUGH + 10, drained(50)));

        CaseFile file = at(LONG_ENOUGH + 2000, seen);

        assertThat(flags(file, FlagKind.DEFLATION_TOO_EARLY)).isEmpty();
        assertThat(flags(file, FlagKind.STABILITY_NOT_SHOWN)).isEmpty();
    }

    @Test
    void deflationThatBeganWithoutItIsTooEarly() {
        EventEnvelope drain = event("drain", LONG_ENOUGH + 10, drained(50));

        assertThat(flags(at(LONG_ENOUGH + 11, List.of(drain)), FlagKind.DEFLATION_TOO_EARLY))
                .hasSize(1);
        List<EventEnvelope> seen = new ArrayList<>(watched(35, LONG_ENOUGH, 30));
        seen.add(drain);
        assertThat(flags(at(LONG_ENOUGH + 11, seen), FlagKind.DEFLATION_TOO_EARLY))
                .isEmpty();
    }

    private static boolean name(EventEnvelope event, String sign) {
        for (int minute = 301; minute <= 420; minute += 10) {
            if (event.eventId().equals(Bedside.id(sign + " at " + minute))) {
                return true;
            }
        }
        return false;
    }

    private static CaseFile at(int minute, List<EventEnvelope> checks) {
        List<EventEnvelope> all = new ArrayList<>(List.of(
                event("in", 0, inserted()),
                event("fill", 1, filled(300)),
                event("control", CONTROL, bleeding(BleedingAmount.LIGHT))));
        all.addAll(checks);
        return CaseFile.of(Bedside.CASE, CareProtocol.standard(), all)
                .advanceTo(minute(minute))
                .after();
    }

    private static List<Flag> flags(CaseFile file, FlagKind kind) {
        return file.facts().stream()
                .filter(it -> it instanceof Flag flag && flag.kind() == kind)
                .map(Flag.class::cast)
                .toList();
    }
}
