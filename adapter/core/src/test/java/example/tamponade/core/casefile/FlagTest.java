package example.tamponade.core.casefile;

import static example.tamponade.core.casefile.Bedside.birth;
import static example.tamponade.core.casefile.Bedside.bleeding;
import static example.tamponade.core.casefile.Bedside.drained;
import static example.tamponade.core.casefile.Bedside.event;
import static example.tamponade.core.casefile.Bedside.filled;
import static example.tamponade.core.casefile.Bedside.fundus;
import static example.tamponade.core.casefile.Bedside.given;
import static example.tamponade.core.casefile.Bedside.inserted;
import static example.tamponade.core.casefile.Bedside.lost;
import static example.tamponade.core.casefile.Bedside.minute;
import static example.tamponade.core.casefile.Bedside.outcome;
import static example.tamponade.core.casefile.Bedside.position;
import static example.tamponade.core.casefile.Bedside.pressureUnrecordable;
import static example.tamponade.core.casefile.Bedside.recognised;
import static example.tamponade.core.casefile.Bedside.referral;
import static example.tamponade.core.casefile.Bedside.removed;
import static example.tamponade.core.casefile.Bedside.urine;
import static example.tamponade.core.casefile.Bedside.vitals;
import static example.tamponade.core.casefile.Bedside.watched;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.event.BalloonFilled;
import example.tamponade.core.event.BalloonPosition;
import example.tamponade.core.event.BleedingAmount;
import example.tamponade.core.event.Chamber;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.MotherOutcome;
import example.tamponade.core.event.ReferralStep;
import example.tamponade.core.event.RemovalReason;
import example.tamponade.core.event.Substance;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.core.protocol.CareProtocol;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** When each flag begins and ends. Where a comment names no source, the rule is common practice, no source. */
class FlagTest {

    private static final int H = 60;

    @Test
    void missesTheControlDeadlineAMinuteAfterItAndEndsAtControl() {
        List<EventEnvelope> events = placed();

        assertNone(at(15, events), FlagKind.CONTROL_DEADLINE_MISSED);
        assertFlag(at(16, events), FlagKind.CONTROL_DEADLINE_MISSED, 15, null);
        assertFlag(
                file(events, event("quiet", 22, bleeding(BleedingAmount.LIGHT))),
                FlagKind.CONTROL_DEADLINE_MISSED,
                15,
                22);
    }

    @Test
    void keepsTheControlDeadlineWhenBleedingStopsExactlyThen() {
        CaseFile file = file(placed(), event("quiet", 15, bleeding(BleedingAmount.NONE)));

        assertNone(file.advanceTo(minute(20)).after(), FlagKind.CONTROL_DEADLINE_MISSED);
    }

    @Test
    void endsTheControlDeadlineWhenTheReferralDeparts() {
        CaseFile file = file(placed(), event("off", 40, referral(ReferralStep.DEPARTED)));

        assertFlag(file, FlagKind.CONTROL_DEADLINE_MISSED, 15, 40);
    }

    // She leaves bleeding: what is seen of it on the way is warned of anew, until it stops.
    @Test
    void bleedingUnderTheBalloonIsWarnedOfAfterTheDeparture() {
        CaseFile onTheWay = file(
                placed(),
                event("off", 40, referral(ReferralStep.DEPARTED)),
                event("way", 50, bleeding(BleedingAmount.MODERATE)),
                event("there", 60, referral(ReferralStep.HANDED_OVER)),
                event("again", 70, bleeding(BleedingAmount.MODERATE)),
                event("quiet", 80, bleeding(BleedingAmount.LIGHT)));

        assertThat(Bedside.flags(onTheWay, FlagKind.CONTROL_DEADLINE_MISSED))
                .extracting(Flag::start, Flag::end)
                .containsExactly(tuple(minute(15), minute(40)), tuple(minute(50), minute(80)));
    }

    @Test
    void saysWhenDeflationMayBeginAndThatItBeganTooEarly() {
        List<EventEnvelope> watched = and(controlled(), watched(35, 12 * H, 30));
        assertFlag(at(5 + 12 * H + 1, watched), FlagKind.DEFLATION_MAY_BEGIN, 5 + 12 * H, null);
        assertNone(at(5 + 12 * H, watched), FlagKind.DEFLATION_MAY_BEGIN);

        CaseFile early = file(controlled(), event("drain", 5 * H, drained(50)));
        assertFlag(early, FlagKind.DEFLATION_TOO_EARLY, 5 * H, null);
        assertFlag(
                file(controlled(), event("drain", 5 * H, drained(50)), event("refill", 5 * H + 9, filled(50))),
                FlagKind.DEFLATION_TOO_EARLY,
                5 * H,
                5 * H + 9);
        assertNone(file(watched, event("drain", 5 + 12 * H, drained(50))), FlagKind.DEFLATION_TOO_EARLY);
    }

    @Test
    void countsStabilityAnewAfterAnEarlyWarning() {
        CaseFile file = file(and(controlled(), watched(35, 19 * H, 30)), event("fast", 6 * H, vitals(130, 110, 70)));

        assertFlag(file.advanceTo(minute(19 * H)).after(), FlagKind.DEFLATION_MAY_BEGIN, 18 * H, null);
    }

    @Test
    void flagsAStepThatIsTooLargeUnlessAStepWasWatched() {
        int begin = 13 * H;
        List<EventEnvelope> oneStep = and(controlled(), event("d1", begin, drained(100)));

        assertFlag(
                file(oneStep, event("d2", begin + 59, drained(10))),
                FlagKind.DEFLATION_STEP_TOO_LARGE,
                begin + 59,
                null);
        assertFlag(
                file(oneStep, event("d2", begin + 60, drained(200))),
                FlagKind.DEFLATION_STEP_TOO_LARGE,
                begin + 60,
                null);
        assertNone(
                file(
                        oneStep,
                        event("look", begin + 30, bleeding(BleedingAmount.NONE)),
                        event("d2", begin + 60, drained(200))),
                FlagKind.DEFLATION_STEP_TOO_LARGE);
    }

    @Test
    void endsTheStepFlagWhenTheNextStepIsWithinTheRule() {
        int begin = 13 * H;
        CaseFile file = file(controlled(), event("d1", begin, drained(150)), event("d2", begin + 61, drained(50)));

        assertFlag(file, FlagKind.DEFLATION_STEP_TOO_LARGE, begin, begin + 61);
    }

    @Test
    void addsSyringesDrawnWithinFiveMinutesToOneStep() {
        int begin = 13 * H;
        CaseFile file = file(
                controlled(),
                event("d1", begin, drained(30)),
                event("d2", begin + 4, drained(30)),
                event("d3", begin + 9, drained(20)));

        assertThat(amounts(file, FactKind.DEFLATION_STEP_VOLUME)).containsExactly("30.0", "60.0", "20.0");
        assertThat(amounts(file, FactKind.VOLUME_LET_OUT_IN_WATCH)).containsExactly("30.0", "60.0", "80.0");
    }

    @Test
    void tellsBleedingAgainByThePhaseItComesIn() {
        assertFlag(
                file(
                        controlled(),
                        event("again", 90, bleeding(BleedingAmount.HEAVY)),
                        event("quiet", 99, bleeding(BleedingAmount.LIGHT))),
                FlagKind.BLEEDING_RECURRED,
                90,
                99);
        assertFlag(
                file(
                        controlled(),
                        event("d1", 13 * H, drained(50)),
                        event("again", 13 * H + 9, bleeding(BleedingAmount.MODERATE)),
                        event("quiet", 13 * H + 20, bleeding(BleedingAmount.NONE))),
                FlagKind.BLEEDING_DURING_DEFLATION,
                13 * H + 9,
                13 * H + 20);
        assertFlag(
                file(
                        controlled(),
                        event("out", 20 * H, removed(RemovalReason.EXPELLED)),
                        event("again", 21 * H, bleeding(BleedingAmount.HEAVY)),
                        event("quiet", 21 * H + 7, bleeding(BleedingAmount.NONE))),
                FlagKind.BLEEDING_AFTER_REMOVAL,
                21 * H,
                21 * H + 7);
    }

    @Test
    void flagsRemovalBeforeTheWaitAndWithAFullRetentionChamber() {
        int empty = 13 * H;
        List<EventEnvelope> emptied = and(
                controlled(),
                event("retention", 4, new BalloonFilled(Chamber.RETENTION, BigDecimal.valueOf(80), null)),
                event("d1", empty, drained(300)));

        CaseFile early = file(
                emptied,
                event("out", empty + 29, removed(RemovalReason.COMPLETED)),
                event("end", empty + 90, outcome(MotherOutcome.RECOVERED)));
        assertFlag(early, FlagKind.REMOVAL_TOO_EARLY, empty + 29, empty + 90);
        assertFlag(early, FlagKind.RETENTION_NOT_EMPTIED, empty + 29, empty + 90);
        assertNone(
                file(emptied, event("out", empty + 30, removed(RemovalReason.COMPLETED))), FlagKind.REMOVAL_TOO_EARLY);
    }

    @Test
    void warnsBeforeTheDwellLimitAndAgainAtIt() {
        List<EventEnvelope> events = controlled();

        assertFlag(at(23 * H + 1, events), FlagKind.DWELL_LIMIT_NEAR, 23 * H, null);
        assertNone(at(24 * H, events), FlagKind.DWELL_LIMIT_PASSED);
        CaseFile late = file(events, event("out", 24 * H + 10, removed(RemovalReason.SURGERY)));
        assertFlag(late, FlagKind.DWELL_LIMIT_NEAR, 23 * H, 24 * H);
        assertFlag(late, FlagKind.DWELL_LIMIT_PASSED, 24 * H, 24 * H + 10);
    }

    @Test
    void flagsADisplacedBalloonUntilItIsBack() {
        CaseFile file = file(
                controlled(),
                event("p1", 50, position(BalloonPosition.DISPLACED)),
                event("p2", 58, position(BalloonPosition.IN_THE_UTERUS)));

        assertFlag(file, FlagKind.BALLOON_DISPLACED, 50, 58);
    }

    @Test
    void flagsARisingFundusWithHysteresis() {
        CaseFile file = file(
                controlled(),
                event("f0", 10, fundus(-1)),
                event("f1", 40, fundus(1)),
                event("f2", 55, fundus(1)),
                event("f3", 70, fundus(0)));

        assertFlag(file, FlagKind.FUNDUS_RISING, 40, 70);
        assertThat(amounts(file, FactKind.FUNDUS_CHANGE)).containsExactly("2.0", "2.0", "1.0");
    }

    // Mhyre 2014: less than 35 mL/h for 2 h or more; 34 and 34 meet it, 35 and 35 do not.
    @Test
    void flagsOliguriaAfterTwoHoursBelowTheRate() {
        CaseFile low = file(
                List.of(),
                event("u1", 60, urine(34, 0, 60)),
                event("u2", 120, urine(34, 60, 120)),
                event("u3", 180, urine(60, 120, 180)));
        CaseFile enough = file(List.of(), event("u1", 60, urine(35, 0, 60)), event("u2", 120, urine(35, 60, 120)));

        assertFlag(low, FlagKind.OLIGURIA, 120, 180);
        assertNone(enough, FlagKind.OLIGURIA);
        assertThat(amounts(low, FactKind.OLIGURIA_DURATION)).containsExactly("60", "120");
    }

    // WHO 2017: within 3 h of birth.
    @Test
    void warnsThatTheAntifibrinolyticWindowClosesAndThatItClosed() {
        List<EventEnvelope> events = List.of(event("b", 0, birth(0)), event("r", 30, recognised()));

        assertFlag(at(151, events), FlagKind.ANTIFIBRINOLYTIC_WINDOW_CLOSING, 150, null);
        assertFlag(at(181, events), FlagKind.ANTIFIBRINOLYTIC_WINDOW_CLOSED, 180, null);
        assertFlag(at(181, events), FlagKind.ANTIFIBRINOLYTIC_WINDOW_CLOSING, 150, 180);
        CaseFile treated = file(events, event("t", 160, given(Substance.TRANEXAMIC_ACID, 1, "g")));
        assertFlag(treated, FlagKind.ANTIFIBRINOLYTIC_WINDOW_CLOSING, 150, 160);
        assertNone(treated.advanceTo(minute(300)).after(), FlagKind.ANTIFIBRINOLYTIC_WINDOW_CLOSED);
    }

    // WHO, FIGO, ICM 2025: 300 mL with any abnormal sign, or 500 mL; the signs' limits are strict.
    @Test
    void meetsTheCriterionByVolumeAndSignOrByVolumeAlone() {
        assertNone(
                file(List.of(), event("v", 1, vitals(100, 100, 60)), event("l", 2, lost(320))),
                FlagKind.HAEMORRHAGE_CRITERION);
        assertFlag(
                file(List.of(), event("v", 1, vitals(101, 100, 60)), event("l", 2, lost(300))),
                FlagKind.HAEMORRHAGE_CRITERION,
                2,
                null);
        assertNone(
                file(List.of(), event("v", 1, vitals(130, 88, 52)), event("l", 2, lost(299))),
                FlagKind.HAEMORRHAGE_CRITERION);
        assertFlag(file(List.of(), event("l", 2, lost(500))), FlagKind.HAEMORRHAGE_CRITERION, 2, null);
    }

    // Mhyre 2014, strict limits: pulse above 120.
    @Test
    void endsAnEarlyWarningWhenTheSignIsBackAtItsLimit() {
        CaseFile file = file(List.of(), event("v1", 1, vitals(121, 120, 70)), event("v2", 6, vitals(120, 120, 70)));

        assertFlag(file, FlagKind.EARLY_WARNING, 1, 6);
    }

    @Test
    void missesACheckAfterTheIntervalAndTheGrace() {
        List<EventEnvelope> events = List.of(event("r", 0, recognised()), event("v", 5, vitals(90, 110, 70)));

        assertFlag(
                file(events, event("v2", 30, vitals(90, 110, 70)), event("b", 31, bleeding(BleedingAmount.LIGHT))),
                FlagKind.CHECK_MISSED,
                15,
                31);
    }

    // Published alarm guidance counts repeated alarms of one cause as one (common practice, no source).
    @Test
    void warnsOfOneRoundOnceHoweverLongItIsMissed() {
        List<EventEnvelope> events =
                List.of(event("r", 0, recognised()), event("b", 2, bleeding(BleedingAmount.LIGHT)));

        assertFlag(at(10 * H, events), FlagKind.CHECK_MISSED, 15, null);
        assertFlag(
                file(
                        events,
                        event("v", 120, vitals(90, 110, 70)),
                        event("b2", 125, bleeding(BleedingAmount.LIGHT)),
                        event("v2", 126, vitals(90, 110, 70))),
                FlagKind.CHECK_MISSED,
                15,
                125);
    }

    // The shock index must fall to the hysteresis below its band before the flag ends: bands of Nathan 2015.
    @Test
    void doesNotLetTheShockIndexFlagFlap() {
        CaseFile file = file(
                List.of(),
                event("v1", 1, vitals(92, 100, 60)),
                event("v2", 6, vitals(88, 100, 60)),
                event("v3", 11, vitals(91, 100, 60)),
                event("v4", 16, vitals(84, 100, 60)));

        assertFlag(file, FlagKind.SHOCK_INDEX_RAISED, 1, 16);
    }

    // Three bands, and above them a pressure that cannot be recorded: El Ayadi 2016 (0.9, 1.4, 1.7).
    @Test
    void theWorseTheShockIndexTheMoreWarningsStand() {
        assertThat(shockIndexFlags(vitals(89, 100, 60))).isEmpty();
        assertThat(shockIndexFlags(vitals(90, 100, 60))).containsExactly("raised");
        assertThat(shockIndexFlags(vitals(140, 100, 60))).containsExactly("raised", "high");
        assertThat(shockIndexFlags(vitals(170, 100, 60))).containsExactly("raised", "high", "critical");
        assertThat(shockIndexFlags(pressureUnrecordable(90)))
                .containsExactly("raised", "high", "critical", "unrecordable");
        CaseFile heardAgain = file(
                List.of(),
                event("v1", 1, pressureUnrecordable(140)),
                event("v2", 6, vitals(140, 80, 50)),
                event("v3", 11, vitals(134, 100, 60)));
        assertThat(flags(heardAgain))
                .filteredOn(it -> it.kind() == FlagKind.SHOCK_INDEX_RAISED)
                .filteredOn(it -> it.end() != null)
                .extracting(it -> it.key().part() + " " + it.end().equals(minute(6)))
                .containsExactlyInAnyOrder("unrecordable true", "critical false", "high false");
    }

    // Heard again without a pulse near it: there is no index, but the pressure is known.
    @Test
    void aPressureThatIsHeardAgainIsNotUnrecordableAnyMore() {
        CaseFile file =
                file(List.of(), event("v1", 1, pressureUnrecordable(140)), event("v2", 30, vitals(null, 80, 50)));

        assertThat(flags(file))
                .filteredOn(it -> it.kind() == FlagKind.SHOCK_INDEX_RAISED && it.end() != null)
                .extracting(it -> it.key().part())
                .containsExactly("unrecordable");
    }

    private static List<String> shockIndexFlags(VitalSigns signs) {
        return flags(file(List.of(), event("v", 1, signs))).stream()
                .filter(it -> it.kind() == FlagKind.SHOCK_INDEX_RAISED)
                .map(it -> it.key().part())
                .toList();
    }

    // Closing is not resolving; what was due ends with the case.
    @Test
    void whatIsWrongWithTheMotherOutlastsTheCase() {
        CaseFile file = file(placed(), event("l", 2, lost(1200)), event("end", 60, outcome(MotherOutcome.DIED)));

        assertThat(flags(file.advanceTo(minute(3000)).after()))
                .extracting(Flag::kind)
                .contains(FlagKind.BLOOD_LOSS_THRESHOLD, FlagKind.CONTROL_DEADLINE_MISSED);
        assertThat(flags(file.advanceTo(minute(3000)).after()))
                .allSatisfy(
                        it -> assertThat(it.end() == null).isEqualTo(it.kind().tellsOfTheMother()));
    }

    private static List<EventEnvelope> placed() {
        return List.of(event("in", 0, inserted()), event("fill", 1, filled(300)));
    }

    private static List<EventEnvelope> controlled() {
        return and(placed(), event("control", 5, bleeding(BleedingAmount.LIGHT)));
    }

    private static List<EventEnvelope> and(List<EventEnvelope> events, EventEnvelope... more) {
        return and(events, Arrays.asList(more));
    }

    private static List<EventEnvelope> and(List<EventEnvelope> events, List<EventEnvelope> more) {
        List<EventEnvelope> all = new ArrayList<>(events);
        all.addAll(more);
        return all;
    }

    private static CaseFile file(List<EventEnvelope> events, EventEnvelope... more) {
        return CaseFile.of(Bedside.CASE, CareProtocol.standard(), and(events, more));
    }

    private static CaseFile at(int minute, List<EventEnvelope> events) {
        return file(events).advanceTo(minute(minute)).after();
    }

    private static List<Flag> flags(CaseFile file) {
        return file.facts().stream()
                .filter(Flag.class::isInstance)
                .map(Flag.class::cast)
                .toList();
    }

    private static void assertFlag(CaseFile file, FlagKind kind, int start, @Nullable Integer end) {
        assertThat(flags(file))
                .filteredOn(it -> it.kind() == kind)
                .singleElement()
                .satisfies(it -> {
                    assertThat(it.start()).isEqualTo(minute(start));
                    assertThat(it.end()).isEqualTo(end == null ? null : minute(end));
                    assertThat(it.rule()).isNotBlank();
                    assertThat(it.evidence()).isNotEmpty();
                });
    }

    private static void assertNone(CaseFile file, FlagKind kind) {
        assertThat(flags(file)).extracting(Flag::kind).doesNotContain(kind);
    }

    private static List<String> amounts(CaseFile file, FactKind kind) {
        return file.facts().stream()
                .filter(it -> it instanceof DerivedValue value && value.kind() == kind)
                .map(it -> ((DerivedValue) it).value())
                .map(it -> ((FactValue.Amount) it).rounded().toPlainString())
                .toList();
    }
}
