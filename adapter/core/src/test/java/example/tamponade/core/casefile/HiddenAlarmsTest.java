package example.tamponade.core.casefile;

import static example.tamponade.core.casefile.Bedside.birth;
import static example.tamponade.core.casefile.Bedside.bleeding;
import static example.tamponade.core.casefile.Bedside.event;
import static example.tamponade.core.casefile.Bedside.filled;
import static example.tamponade.core.casefile.Bedside.flags;
import static example.tamponade.core.casefile.Bedside.fundus;
import static example.tamponade.core.casefile.Bedside.given;
import static example.tamponade.core.casefile.Bedside.inserted;
import static example.tamponade.core.casefile.Bedside.lost;
import static example.tamponade.core.casefile.Bedside.minute;
import static example.tamponade.core.casefile.Bedside.opened;
import static example.tamponade.core.casefile.Bedside.outcome;
import static example.tamponade.core.casefile.Bedside.position;
import static example.tamponade.core.casefile.Bedside.recognised;
import static example.tamponade.core.casefile.Bedside.referral;
import static example.tamponade.core.casefile.Bedside.removed;
import static example.tamponade.core.casefile.Bedside.urine;
import static example.tamponade.core.casefile.Bedside.vitals;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.derivation.AbsentReason;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.event.BalloonPosition;
import example.tamponade.core.event.BleedingAmount;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.MotherOutcome;
import example.tamponade.core.event.Outcome;
import example.tamponade.core.event.ReferralStep;
import example.tamponade.core.event.RemovalReason;
import example.tamponade.core.event.Substance;
import example.tamponade.core.protocol.CareProtocol;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The absence of a reading is never reassurance, and nothing looks calmer than it is. */
class HiddenAlarmsTest {

    @Test
    void eachInsertionHasItsOwnTimeToControl() {
        CaseFile second = file(
                event("in1", 0, inserted()),
                event("fill1", 1, filled(300)),
                event("out", 18, removed(RemovalReason.FAILED)),
                event("in2", 20, inserted()),
                event("fill2", 21, filled(350)),
                event("control", 34, bleeding(BleedingAmount.LIGHT)));
        CaseFile again = file(
                event("in1", 0, inserted()),
                event("fill1", 1, filled(300)),
                event("control1", 5, bleeding(BleedingAmount.LIGHT)),
                event("heavy", 10, bleeding(BleedingAmount.HEAVY)),
                event("control1again", 11, bleeding(BleedingAmount.LIGHT)),
                event("out", 12, removed(RemovalReason.EXPELLED)),
                event("in2", 14, inserted()),
                event("fill2", 15, filled(350)),
                event("control2", 22, bleeding(BleedingAmount.NONE)));

        assertThat(values(second, FactKind.INSERTION_TO_CONTROL)).containsExactly("14");
        assertThat(values(again, FactKind.INSERTION_TO_CONTROL)).containsExactly("5", "8");
        assertThat(values(again, FactKind.VOLUME_AT_CONTROL)).containsExactly("300.0", "350.0");
    }

    // RCOG Green-top Guideline 52: more than 2000 mL.
    @Test
    void warnsOfAMassiveHaemorrhageStrictlyAboveItsVolume() {
        CaseFile at = file(event("a", 1, lost(2000)));
        CaseFile above = file(event("a", 1, lost(2000)), event("b", 2, lost(1)));

        assertThat(parts(at)).containsExactly("haemorrhage-volume", "severe-haemorrhage-volume");
        assertThat(parts(above)).contains("massive-haemorrhage-volume");
    }

    // Arithmetic: 60 mL in the hour to minute 60; of the 60 mL from 30 to 90, the half that lies behind it.
    @Test
    void urineOfATimeThatIsCoveredCountsOnce() {
        CaseFile file = file(event("u1", 60, urine(60, 0, 60)), event("u2", 90, urine(60, 30, 90)));

        assertThat(values(file, FactKind.URINE_RATE)).containsExactly("60.0", "60.0");
        assertThat(values(file, FactKind.ROLLING_URINE_RATE)).containsExactly("60.0", "60.0");
        assertThat(values(file, FactKind.FLUIDS_OUT)).containsExactly("60", "90");
        assertThat(file.facts())
                .filteredOn(
                        it -> it instanceof RecordIssue issue && issue.kind() == IssueKind.URINE_COLLECTIONS_OVERLAP)
                .hasSize(1);
    }

    // Common practice, no source: less than half an hour gives no rate; it does not show that urine comes again either.
    @Test
    void aShortCollectionGivesNoRateAndEndsNothing() {
        CaseFile file = file(
                event("u1", 60, urine(20, 0, 60)),
                event("u2", 120, urine(20, 60, 120)),
                event("u3", 149, urine(40, 120, 149)));

        assertThat(values(file, FactKind.URINE_RATE)).containsExactly("20.0", "20.0", "collection-too-short");
        assertThat(only(file, FlagKind.OLIGURIA).end()).isNull();
        assertThat(values(file(event("u", 30, urine(20, 0, 30))), FactKind.URINE_RATE))
                .containsExactly("40.0");
    }

    // Arithmetic: 100 mL in 10 min are 600 mL/h; over which time the first 300 mL were lost is not known.
    @Test
    void aRateOfLossNeedsTwoReadings() {
        CaseFile one = file(event("a", 1, lost(300)));
        CaseFile atOnce = file(event("a", 1, lost(300)), event("z", 1, lost(200)));
        CaseFile two = file(event("a", 1, lost(300)), event("b", 11, lost(100)), event("c", 20, lost(50)));

        assertMissing(one, FactKind.BLOOD_LOSS_RATE_SHORT, AbsentReason.FIRST_READING);
        assertMissing(atOnce, FactKind.BLOOD_LOSS_RATE_SHORT, AbsentReason.FIRST_READING);
        assertThat(values(two, FactKind.BLOOD_LOSS_RATE_SHORT)).containsExactly("first-reading", "600", "600");
        assertThat(values(two, FactKind.BLOOD_LOSS_RATE_LONG)).containsExactly("first-reading", "600", "474");
    }

    private static List<String> parts(CaseFile file) {
        return flags(file, FlagKind.BLOOD_LOSS_THRESHOLD).stream()
                .map(it -> it.key().part())
                .toList();
    }

    @Test
    void whatCannotBeWorkedOutIsSaidOnceWithItsReason() {
        CaseFile file = file(
                event("r", 0, recognised()),
                event("l1", 1, lost(200)),
                event("v1", 2, vitals(90, 110, null)),
                event("l2", 3, lost(100)),
                event("v2", 4, vitals(92, 108, null)),
                event("u1", 70, urine(40, 10, 70)),
                event("u2", 130, urine(40, 70, 130)));

        assertMissing(file, FactKind.SHARE_OF_BLOOD_VOLUME_LOST, AbsentReason.WEIGHT_MISSING);
        assertMissing(file, FactKind.URINE_RATE_PER_KG, AbsentReason.WEIGHT_MISSING);
        assertMissing(file, FactKind.MEAN_ARTERIAL_PRESSURE, AbsentReason.DIASTOLIC_MISSING);
        assertMissing(file, FactKind.BIRTH_TO_RECOGNITION, AbsentReason.BEGIN_MISSING);
        assertMissing(file, FactKind.FLUID_BALANCE, AbsentReason.INTAKE_MISSING);
    }

    @Test
    void whatBecomesKnownIsWorkedOut() {
        CaseFile file = file(
                event("o", 0, opened(60)),
                event("l1", 1, lost(300)),
                event("c", 2, given(Substance.CRYSTALLOID, 500, "mL")));

        assertThat(values(file, FactKind.SHARE_OF_BLOOD_VOLUME_LOST)).containsExactly("5.0");
        assertThat(values(file, FactKind.FLUID_BALANCE)).containsExactly("intake-missing", "200");
    }

    // By hand: due every 5 min from recognition, a grace of 10 min. By minute 65 those due at 10 to 50 were missed.
    @ParameterizedTest
    @CsvSource({"5, 10.0", "-1, 0.0"})
    void completenessOfChecksAgesToTheEndOfTheCase(int checkedAt, String percent) {
        List<EventEnvelope> events = new ArrayList<>(List.of(event("r", 0, recognised())));
        if (checkedAt > 0) {
            events.add(event("v", checkedAt, vitals(90, 110, 70)));
        }
        events.add(event("end", 65, outcome(MotherOutcome.DIED)));

        List<String> values = values(file(events.toArray(EventEnvelope[]::new)), FactKind.CHECKS_COMPLETENESS);

        assertThat(values.get(values.size() - 1)).isEqualTo(percent);
    }

    // By hand: every 5 min up to control at minute 30, every 15 min behind it, a grace of 10 min. Without a check of
    // signs
    // before minute 60 those due at 5, 10 and 15 had been missed at minute 30; from there the next were due at 30 and
    // 45.
    @Test
    void eachMissedCheckIsCountedByTheIntervalThatHeldThen() {
        CaseFile file = file(
                event("r", 0, recognised()),
                event("in", 2, inserted()),
                event("fill", 3, filled(300)),
                event("control", 30, bleeding(BleedingAmount.LIGHT)),
                event("v", 60, vitals(90, 110, 70)));

        // One done of 1 + 3 + 2.
        assertThat(values(file, FactKind.CHECKS_COMPLETENESS)).containsExactly("16.7");
    }

    @Test
    void pulseAndPressureOfOnePairAreOneCheck() {
        CaseFile file = file(
                event("r", 0, recognised()),
                event("p", 5, vitals(90, null, null)),
                event("b", 8, vitals(null, 110, 70)),
                event("p2", 9, vitals(91, null, null)));

        assertThat(values(file, FactKind.NEXT_CHECK_DUE)).hasSize(1);
    }

    @Test
    void anExpelledBalloonIsWarnedOfUntilSomethingIsDoneAboutIt() {
        List<EventEnvelope> expelled = List.of(
                event("in", 0, inserted()),
                event("fill", 1, filled(300)),
                event("gone", 20, position(BalloonPosition.EXPELLED)));

        assertEnd(expelled, event("quiet", 30, bleeding(BleedingAmount.NONE)), null);
        assertEnd(expelled, event("again", 40, inserted()), 40);
        assertEnd(expelled, event("theatre", 50, removed(RemovalReason.SURGERY)), 50);
        assertEnd(expelled, event("over", 60, referral(ReferralStep.HANDED_OVER)), 60);
        assertEnd(expelled, event("end", 70, outcome(MotherOutcome.RECOVERED)), null);
    }

    private static void assertEnd(List<EventEnvelope> events, EventEnvelope then, Integer end) {
        List<EventEnvelope> all = new ArrayList<>(events);
        all.add(then);
        assertThat(flags(file(all.toArray(EventEnvelope[]::new)), FlagKind.BALLOON_DISPLACED))
                .singleElement()
                .satisfies(it -> assertThat(it.end()).isEqualTo(end == null ? null : minute(end)));
    }

    @Test
    void aRisingFundusIsMeasuredFromTheLowestHeightAroundInsertion() {
        CaseFile before = file(event("f0", 0, fundus(-3)), event("in", 5, inserted()), event("f1", 20, fundus(-1)));
        CaseFile behind = file(
                event("f0", 0, fundus(1)),
                event("in", 5, inserted()),
                event("f1", 20, fundus(-1)),
                event("f2", 30, fundus(1)));
        CaseFile late = file(event("f0", 0, fundus(1)), event("in", 5, inserted()), event("f1", 66, fundus(-1)));

        assertThat(values(before, FactKind.FUNDUS_CHANGE)).containsExactly("2.0");
        assertThat(flags(before, FlagKind.FUNDUS_RISING)).hasSize(1);
        assertThat(values(behind, FactKind.FUNDUS_CHANGE)).containsExactly("0.0", "2.0");
        assertThat(values(late, FactKind.FUNDUS_CHANGE)).containsExactly("-2.0");
    }

    // WHO 2017: within 3 h of birth; the criterion of WHO, FIGO and ICM 2025 is met at 500 mL.
    @Test
    void theWindowOfTranexamicAcidIsWatchedBeforeAnybodyHasRecognisedTheHaemorrhage() {
        CaseFile file = file(event("b", 0, birth(0)), event("l", 10, lost(500)));

        assertThat(flags(file.advanceTo(minute(181)).after(), FlagKind.ANTIFIBRINOLYTIC_WINDOW_CLOSING))
                .extracting(Flag::start)
                .containsExactly(minute(150));
        CaseFile recognised = file(event("b", 0, birth(0)), event("l", 10, lost(500)), event("r", 160, recognised()));
        assertThat(flags(recognised.advanceTo(minute(400)).after(), FlagKind.ANTIFIBRINOLYTIC_WINDOW_CLOSED))
                .extracting(Flag::start)
                .containsExactly(minute(180));
    }

    // Recorded two minutes behind; entered at minute 400, the warnings of minute 150 and 180 could not be known before.
    @Test
    void aWarningTellsFromWhenItCouldBeKnown() {
        EventEnvelope late = Bedside.correction("late", "none", 10, 400, recognised());
        EventEnvelope entered = new EventEnvelope(
                late.eventId(),
                late.caseId(),
                late.facilityId(),
                late.occurredAt(),
                late.recordedAt(),
                late.recordedBy(),
                null,
                null,
                null,
                late.data());
        CaseFile file =
                file(event("b", 0, birth(0)), entered).advanceTo(minute(500)).after();

        assertThat(flags(file, FlagKind.ANTIFIBRINOLYTIC_WINDOW_CLOSED))
                .singleElement()
                .satisfies(it -> {
                    assertThat(it.start()).isEqualTo(minute(180));
                    assertThat(it.knownFrom()).isEqualTo(minute(400));
                });
        assertThat(flags(file(event("l", 1, lost(500))), FlagKind.BLOOD_LOSS_THRESHOLD))
                .singleElement()
                .satisfies(it -> assertThat(it.knownFrom()).isEqualTo(minute(3)));
    }

    // Where nobody records a removal, the watch ends with the hand-over, and goes on when somebody looks after her.
    @Test
    void theTimeInPlaceIsWatchedOnWhereTheReceivingSideRecords() {
        EventEnvelope in = event("in", 0, inserted());
        EventEnvelope over = event("over", 60, referral(ReferralStep.HANDED_OVER));

        CaseFile nobody = file(in, over).advanceTo(minute(3000)).after();
        assertThat(values(nobody, FactKind.TIME_IN_SITU)).containsExactly("60");
        assertThat(flags(nobody, FlagKind.DWELL_LIMIT_PASSED)).isEmpty();

        CaseFile received = file(in, over, event("v", 90, vitals(92, 110, 70)))
                .advanceTo(minute(3000))
                .after();
        assertThat(values(received, FactKind.TIME_IN_SITU)).containsExactly("60", "3000");
        assertThat(flags(received, FlagKind.DWELL_LIMIT_PASSED)).singleElement().satisfies(it -> {
            assertThat(it.start()).isEqualTo(minute(24 * 60));
            assertThat(it.end()).isNull();
        });
    }

    @Test
    void theTimeInPlaceEndsAtDeathWithItsWarnings() {
        CaseFile file = file(
                        event("in", 0, inserted()),
                        event("v", 1500, vitals(92, 110, 70)),
                        event("died", 1520, new Outcome(MotherOutcome.DIED, false)))
                .advanceTo(minute(3000))
                .after();

        assertThat(values(file, FactKind.TIME_IN_SITU)).containsExactly("1520");
        assertThat(flags(file, FlagKind.DWELL_LIMIT_PASSED)).singleElement().satisfies(it -> {
            assertThat(it.end()).isEqualTo(minute(1520));
            assertEnded(it, FlagEndReason.NO_LONGER_OBSERVED, "died");
        });
    }

    @Test
    void eachWarningThatEndedSaysWhy() {
        CaseFile file = file(
                event("b", 0, birth(0)),
                event("r", 1, recognised()),
                event("v1", 2, vitals(130, 100, 60)),
                event("v2", 200, vitals(80, 120, 70)),
                event("end", 240, outcome(MotherOutcome.RECOVERED)));

        assertEnded(only(file, FlagKind.EARLY_WARNING), FlagEndReason.RESOLVED, "v2");
        assertEnded(only(file, FlagKind.ANTIFIBRINOLYTIC_WINDOW_CLOSED), FlagEndReason.NO_LONGER_OBSERVED, "end");
        assertThat(only(file, FlagKind.ANTIFIBRINOLYTIC_WINDOW_CLOSING).ending())
                .isEqualTo(new Flag.Ending(minute(180), FlagEndReason.SUPERSEDED, null));
    }

    // Mhyre 2014: a trigger is verified by a repeat.
    @Test
    void anEarlyWarningIsConfirmedByTheNextReadingThatMeetsItToo() {
        EventEnvelope first = event("v1", 1, vitals(130, 110, 60));
        EventEnvelope other = event("v2", 3, vitals(null, 112, 60));
        EventEnvelope again = event("v3", 6, vitals(125, 110, 60));

        assertThat(only(file(first, other), FlagKind.EARLY_WARNING).isToBeRepeated())
                .isTrue();
        assertThat(only(file(first, other, again), FlagKind.EARLY_WARNING)).satisfies(it -> {
            assertThat(it.isToBeRepeated()).isFalse();
            assertThat(it.confirmedBy()).isEqualTo(new FactInput.OfEvent(Bedside.id("v3"), Reading.PULSE));
            assertThat(it.start()).isEqualTo(minute(1));
        });
    }

    private static Flag only(CaseFile file, FlagKind kind) {
        assertThat(flags(file, kind)).hasSize(1);
        return flags(file, kind).get(0);
    }

    private static void assertEnded(Flag flag, FlagEndReason reason, String event) {
        assertThat(flag.ending()).isNotNull().satisfies(it -> {
            assertThat(it.reason()).isEqualTo(reason);
            assertThat(it.by()).isEqualTo(new FactInput.OfEvent(Bedside.id(event), Reading.EVENT));
        });
    }

    private static CaseFile file(EventEnvelope... events) {
        return CaseFile.of(Bedside.CASE, CareProtocol.standard(), Arrays.asList(events));
    }

    private static List<String> values(CaseFile file, FactKind kind) {
        return file.facts().stream()
                .filter(it -> it instanceof DerivedValue value && value.kind() == kind)
                .map(it -> words(((DerivedValue) it).value()))
                .toList();
    }

    private static String words(FactValue value) {
        if (value instanceof FactValue.Amount amount) {
            return amount.rounded().toPlainString();
        }
        return value instanceof FactValue.Missing missing
                ? missing.reason().code()
                : ((FactValue.Time) value).time().format(java.time.format.DateTimeFormatter.ISO_OFFSET_DATE_TIME);
    }

    private static void assertMissing(CaseFile file, FactKind kind, AbsentReason reason) {
        assertThat(values(file, kind)).containsExactly(reason.code());
    }
}
