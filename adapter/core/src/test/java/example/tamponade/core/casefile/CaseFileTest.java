package example.tamponade.core.casefile;

import static example.tamponade.core.casefile.Bedside.correction;
import static example.tamponade.core.casefile.Bedside.drained;
import static example.tamponade.core.casefile.Bedside.drape;
import static example.tamponade.core.casefile.Bedside.event;
import static example.tamponade.core.casefile.Bedside.filled;
import static example.tamponade.core.casefile.Bedside.id;
import static example.tamponade.core.casefile.Bedside.inserted;
import static example.tamponade.core.casefile.Bedside.lost;
import static example.tamponade.core.casefile.Bedside.minute;
import static example.tamponade.core.casefile.Bedside.pressureUnrecordable;
import static example.tamponade.core.casefile.Bedside.retraction;
import static example.tamponade.core.casefile.Bedside.vitals;
import static example.tamponade.core.casefile.Bedside.weighed;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.derivation.AbsentReason;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.RemovalReason;
import example.tamponade.core.event.TamponadeRemoved;
import example.tamponade.core.protocol.Band;
import example.tamponade.core.protocol.CareProtocol;
import java.util.List;
import org.junit.jupiter.api.Test;

class CaseFileTest {

    private static final CareProtocol PROTOCOL = CareProtocol.standard();

    // Worked figure: items 390 mL, drape 450 mL with 120 mL fluid from before the placenta: 720 mL (AWHONN Practice
    // Brief 1; ACOG Committee Opinion 794).
    // The pulse is paired with an older pressure for as long as the one of its minute is not there.
    @Test
    void aPairThatCameInTwoEventsIsOneShockIndex() {
        CaseFile file = file(
                event("pressure before", 0, vitals(null, 120, 80)),
                event("pulse before", 1, vitals(90, null, null)),
                event("pulse", 6, vitals(120, null, null)),
                event("pressure", 6, vitals(null, 80, 50)));

        assertThat(rounded(file, FactKind.SHOCK_INDEX)).containsExactly("0.75", "1.50");
        assertThat(rounded(file, FactKind.SHOCK_INDEX_CHANGE_SINCE_LAST)).containsExactly("0.75");
    }

    @Test
    void twoLossesOfOneMinuteAreOneTotalAndTwoReadings() {
        CaseFile file = file(event("pad", 3, lost(100)), event("drape", 3, lost(250)), event("later", 9, lost(50)));

        assertThat(rounded(file, FactKind.CUMULATIVE_BLOOD_LOSS)).containsExactly("350.0", "400.0");
        assertThat(rounded(file, FactKind.BLOOD_LOSS_OF_READING)).containsExactly("100.0", "250.0", "50.0");
        assertThat(rounded(file, FactKind.FLUIDS_OUT)).containsExactly("350", "400");
    }

    private static List<String> rounded(CaseFile file, FactKind kind) {
        return file.facts().stream()
                .filter(it -> it instanceof DerivedValue value && value.kind() == kind)
                .map(it -> ((FactValue.Amount) ((DerivedValue) it).value())
                        .rounded()
                        .toPlainString())
                .toList();
    }

    @Test
    void addsWeighedItemsAndTheDrapeLessOtherFluid() {
        CaseFile file = file(
                event("a", 1, weighed(185, 35)),
                event("b", 2, weighed(240, 60)),
                event("c", 3, weighed(95, 35)),
                event("d", 4, drape("main", 450, 120, false)));

        assertThat(amounts(file, FactKind.CUMULATIVE_BLOOD_LOSS)).containsExactly("150.0", "330.0", "390.0", "720.0");
    }

    // Worked figure: losses of 180, 130, 240 and 460 mL; the thresholds of WHO 2012 are reached at the third and
    // fourth.
    @Test
    void flagsEachThresholdOnceWhereItIsReached() {
        CaseFile file = file(
                event("a", 1, lost(180)), event("b", 2, lost(130)), event("c", 3, lost(240)), event("d", 4, lost(460)));

        assertThat(amounts(file, FactKind.CUMULATIVE_BLOOD_LOSS)).containsExactly("180.0", "310.0", "550.0", "1010.0");
        assertThat(flags(file, FlagKind.BLOOD_LOSS_THRESHOLD))
                .extracting(it -> it.key().anchor())
                .containsExactly(id("c"), id("d"));
    }

    @Test
    void countsARunningTotalOnceAndBanksItWhenEmptied() {
        CaseFile file = file(
                event("a", 1, drape("main", 200, 0, false)),
                event("b", 2, drape("main", 350, 0, true)),
                event("c", 3, drape("main", 80, 0, false)));

        assertThat(amounts(file, FactKind.CUMULATIVE_BLOOD_LOSS)).containsExactly("200.0", "350.0", "430.0");
    }

    @Test
    void keepsTheHigherValueWhenARunningTotalFalls() {
        CaseFile file = file(event("a", 1, drape("main", 300, 0, false)), event("b", 2, drape("main", 250, 0, false)));

        assertThat(amounts(file, FactKind.CUMULATIVE_BLOOD_LOSS)).containsExactly("300.0", "300.0");
        assertThat(issues(file)).contains(IssueKind.RUNNING_TOTAL_FELL);
    }

    @Test
    void doubtsTheSameVolumeInTwoCollectorsWithinAMinute() {
        CaseFile file = file(event("a", 1, drape("main", 300, 0, false)), event("b", 1, drape("floor", 300, 0, false)));

        assertThat(issues(file)).contains(IssueKind.SAME_READING_TWICE);
    }

    @Test
    void pairsPulseAndPressureWithinTheWindowAndDatesThePairAtTheLater() {
        CaseFile file = file(event("a", 1, vitals(110, null, null)), event("b", 6, vitals(null, 90, 50)));

        DerivedValue index = values(file, FactKind.SHOCK_INDEX).get(0);

        assertThat(index.at()).isEqualTo(minute(6));
        assertThat(index.inputs())
                .containsExactly(
                        new FactInput.OfEvent(id("a"), Reading.PULSE),
                        new FactInput.OfEvent(id("b"), Reading.BLOOD_PRESSURE));
        assertThat(amounts(file, FactKind.SHOCK_INDEX)).containsExactly("1.22");
    }

    @Test
    void neverPairsAcrossTheWindow() {
        CaseFile file = file(event("a", 1, vitals(110, null, null)), event("b", 7, vitals(null, 90, 50)));

        assertThat(values(file, FactKind.SHOCK_INDEX)).isEmpty();
    }

    @Test
    void putsAPressureThatCouldNotBeHeardInTheTopBandWithoutANumber() {
        CaseFile file = file(event("a", 1, pressureUnrecordable(140)));

        DerivedValue index = values(file, FactKind.SHOCK_INDEX).get(0);

        assertThat(index.value()).isEqualTo(new FactValue.Missing(AbsentReason.PRESSURE_UNRECORDABLE));
        assertThat(index.band()).isEqualTo(Band.CRITICAL);
    }

    @Test
    void endsTheShockIndexFlagWhenTheIndexIsBackInItsBand() {
        CaseFile file = file(event("a", 1, vitals(110, 90, 50)), event("b", 16, vitals(80, 120, 70)));

        assertThat(flags(file, FlagKind.SHOCK_INDEX_RAISED)).singleElement().satisfies(it -> {
            assertThat(it.start()).isEqualTo(minute(1));
            assertThat(it.end()).isEqualTo(minute(16));
        });
    }

    // Worked figure: +300, +100, -50, -50, -50, -250 leaves 300, 400, 350, 300, 250, 0 (arithmetic).
    @Test
    void followsTheVolumeInTheChamber() {
        CaseFile file = file(
                event("in", 1, inserted()),
                event("a", 2, filled(300)),
                event("b", 3, filled(100)),
                event("c", 4, drained(50)),
                event("d", 5, drained(50)),
                event("e", 6, drained(50)),
                event("f", 7, drained(250)));

        assertThat(amounts(file, FactKind.TAMPONADE_CHAMBER_VOLUME))
                .containsExactly("300.0", "400.0", "350.0", "300.0", "250.0", "0.0");
    }

    @Test
    void neverHoldsLessThanNothing() {
        CaseFile file = file(event("in", 1, inserted()), event("a", 2, filled(100)), event("b", 3, drained(130)));

        assertThat(amounts(file, FactKind.TAMPONADE_CHAMBER_VOLUME)).containsExactly("100.0", "0.0");
        assertThat(issues(file)).contains(IssueKind.DRAINED_MORE_THAN_HELD);
    }

    @Test
    void doubtsAVolumeAboveCapacityAndAFillingWithoutADevice() {
        CaseFile file = file(event("early", 0, filled(50)), event("in", 1, inserted()), event("a", 2, filled(501)));

        assertThat(issues(file)).contains(IssueKind.NO_DEVICE_IN_PLACE, IssueKind.OVER_CAPACITY);
    }

    @Test
    void givesEachInsertionItsOwnTimer() {
        CaseFile file = file(
                event("in", 1, inserted()),
                event("out", 31, new TamponadeRemoved(RemovalReason.EXPELLED)),
                event("again", 40, inserted()));

        CaseFile later = file.advanceTo(minute(100)).after();

        assertThat(amounts(later, FactKind.TIME_IN_SITU)).containsExactly("30", "60");
    }

    @Test
    void letsACorrectionStandInPlaceOfTheEvent() {
        CaseFile file =
                file(event("a", 1, lost(200)), event("b", 2, lost(300)), correction("fix", "a", 3, 20, lost(120)));

        assertThat(amounts(file, FactKind.CUMULATIVE_BLOOD_LOSS)).containsExactly("300.0", "420.0");
        assertThat(values(file, FactKind.CUMULATIVE_BLOOD_LOSS).get(1).key().anchor())
                .isEqualTo(id("a"));
    }

    @Test
    void takesTheEventBackWhenItsCorrectionIsRetracted() {
        CaseFile file =
                file(event("a", 1, lost(200)), correction("fix", "a", 1, 20, lost(120)), retraction("undo", "fix", 30));

        assertThat(amounts(file, FactKind.CUMULATIVE_BLOOD_LOSS)).containsExactly("200.0");
    }

    @Test
    void withdrawsARetractedEventAndWhatWasDerivedFromIt() {
        CaseFile before = file(event("a", 1, lost(200)), event("b", 2, lost(300)));

        CaseChange change = before.apply(retraction("undo", "a", 30));

        assertThat(amounts(change.after(), FactKind.CUMULATIVE_BLOOD_LOSS)).containsExactly("300.0");
        assertThat(change.gone())
                .contains(FactKey.of(FactKind.CUMULATIVE_BLOOD_LOSS, id("a")))
                .doesNotContain(FactKey.of(FactKind.CUMULATIVE_BLOOD_LOSS, id("b")));
        assertThat(change.after().withdrawn()).extracting(Withdrawn::root).containsExactly(id("a"));
    }

    @Test
    void aLateEventChangesOnlyWhatFollowsIt() {
        CaseFile before = file(event("a", 1, lost(100)), event("c", 9, lost(100)), event("v", 10, vitals(80, 120, 70)));

        CaseChange change = before.apply(event("b", 5, lost(50)));

        assertThat(change.facts())
                .extracting(CaseFact::key)
                .contains(
                        FactKey.of(FactKind.CUMULATIVE_BLOOD_LOSS, id("b")),
                        FactKey.of(FactKind.CUMULATIVE_BLOOD_LOSS, id("c")))
                .doesNotContain(
                        FactKey.of(FactKind.CUMULATIVE_BLOOD_LOSS, id("a")),
                        FactKey.of(FactKind.BLOOD_LOSS_OF_READING, id("c")),
                        FactKey.of(FactKind.SHOCK_INDEX, id("v")));
    }

    @Test
    void reopensAFlagWhoseEndIsTakenBack() {
        CaseFile before = file(event("a", 1, vitals(110, 90, 50)), event("b", 16, vitals(80, 120, 70)));

        CaseChange change = before.apply(retraction("undo", "b", 30));

        assertThat(change.facts())
                .anySatisfy(it -> assertThat(it)
                        .isInstanceOfSatisfying(
                                Flag.class, flag -> assertThat(flag.end()).isNull()));
    }

    private static CaseFile file(EventEnvelope... events) {
        return CaseFile.of(Bedside.CASE, PROTOCOL, List.of(events));
    }

    private static List<DerivedValue> values(CaseFile file, FactKind kind) {
        return file.facts().stream()
                .filter(DerivedValue.class::isInstance)
                .map(DerivedValue.class::cast)
                .filter(it -> it.kind() == kind)
                .toList();
    }

    private static List<String> amounts(CaseFile file, FactKind kind) {
        return values(file, kind).stream()
                .map(it -> ((FactValue.Amount) it.value()).rounded().toPlainString())
                .toList();
    }

    private static List<Flag> flags(CaseFile file, FlagKind kind) {
        return file.facts().stream()
                .filter(Flag.class::isInstance)
                .map(Flag.class::cast)
                .filter(it -> it.kind() == kind)
                .toList();
    }

    private static List<IssueKind> issues(CaseFile file) {
        return file.facts().stream()
                .filter(RecordIssue.class::isInstance)
                .map(it -> ((RecordIssue) it).kind())
                .toList();
    }
}
