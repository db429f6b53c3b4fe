package example.tamponade.core.casefile;

import static example.tamponade.core.casefile.Bedside.bleeding;
import static example.tamponade.core.casefile.Bedside.event;
import static example.tamponade.core.casefile.Bedside.flags;
import static example.tamponade.core.casefile.Bedside.given;
import static example.tamponade.core.casefile.Bedside.lost;
import static example.tamponade.core.casefile.Bedside.minute;
import static example.tamponade.core.casefile.Bedside.position;
import static example.tamponade.core.casefile.Bedside.recognised;
import static example.tamponade.core.casefile.Bedside.removed;
import static example.tamponade.core.casefile.Bedside.urine;
import static example.tamponade.core.casefile.Bedside.vitals;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.event.Analyte;
import example.tamponade.core.event.Baby;
import example.tamponade.core.event.BabyOutcome;
import example.tamponade.core.event.BalloonPosition;
import example.tamponade.core.event.Birth;
import example.tamponade.core.event.BirthMode;
import example.tamponade.core.event.BleedingAmount;
import example.tamponade.core.event.BleedingChecked;
import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.Consent;
import example.tamponade.core.event.DeviceKind;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.Laboratory;
import example.tamponade.core.event.Manoeuvre;
import example.tamponade.core.event.ManoeuvreKind;
import example.tamponade.core.event.Mother;
import example.tamponade.core.event.PlacentaState;
import example.tamponade.core.event.RemovalReason;
import example.tamponade.core.event.StaffRole;
import example.tamponade.core.event.Substance;
import example.tamponade.core.event.SymptomsChecked;
import example.tamponade.core.event.TamponadeDevice;
import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.event.TamponadePrepared;
import example.tamponade.core.event.UterineTone;
import example.tamponade.core.event.UterusChecked;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.core.protocol.LaboratoryLimit;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Warnings from what is on record anyway. Where a comment names no source, the rule is common practice, no source. */
class RecordedRisksTest {

    @ParameterizedTest
    @EnumSource(PlacentaState.class)
    void anIncompletePlacentaWarnsUntilTheCavityIsExplored(PlacentaState state) {
        EventEnvelope birth = event("b", 0, birth(state));
        boolean warns = state == PlacentaState.INCOMPLETE || state == PlacentaState.RETAINED;

        assertThat(raised(FlagKind.PLACENTA_NOT_COMPLETE, birth)).hasSize(warns ? 1 : 0);
        assertThat(raised(
                        FlagKind.PLACENTA_NOT_COMPLETE,
                        birth,
                        event("m", 20, manoeuvre(ManoeuvreKind.CAVITY_EXPLORED, 20))))
                .allSatisfy(it -> assertThat(it.end()).isEqualTo(minute(20)));
    }

    @Test
    void bleedingFromElsewhereStandsUntilNoneIsSeen() {
        EventEnvelope seen = event("a", 1, new BleedingChecked(BleedingAmount.LIGHT, true));
        EventEnvelope silent = event("b", 5, bleeding(BleedingAmount.NONE));
        EventEnvelope none = event("c", 9, new BleedingChecked(BleedingAmount.NONE, false));

        assertThat(only(FlagKind.BLEEDING_FROM_ELSEWHERE, seen, silent).end()).isNull();
        assertThat(only(FlagKind.BLEEDING_FROM_ELSEWHERE, seen, silent, none).end())
                .isEqualTo(minute(9));
    }

    // Mhyre 2014: agitation or confusion; headache and breathlessness in pre-eclampsia.
    @Test
    void symptomsWarnUntilTheyAreNotThere() {
        CaseFile file = file(List.of(
                event("a", 1, new SymptomsChecked(true, true, true)),
                event("b", 5, new SymptomsChecked(null, false, null)),
                event("c", 9, new SymptomsChecked(false, null, null))));

        assertThat(flags(file, FlagKind.EARLY_WARNING))
                .extracting(it -> it.key().part() + " " + it.severity() + " " + it.end())
                .containsExactlyInAnyOrder(
                        "agitation-or-confusion HIGH " + minute(9),
                        "headache MODERATE " + minute(5),
                        "breathlessness MODERATE null");
    }

    @Test
    void aDevicePastItsDateWarnsWhileItIsIn() {
        EventEnvelope last = event("i", 10, inserted(LocalDate.parse("2026-02-11"), true));
        EventEnvelope past = event("i", 10, inserted(LocalDate.parse("2026-02-10"), true));
        EventEnvelope out = event("o", 600, removed(RemovalReason.FAILED));

        assertThat(raised(FlagKind.DEVICE_PAST_DATE, last)).isEmpty();
        assertThat(only(FlagKind.DEVICE_PAST_DATE, past, out).end()).isEqualTo(minute(600));
    }

    @Test
    void aPositionThatIsNotConfirmedWarnsUntilItIs() {
        EventEnvelope in = event("i", 0, inserted(null, false));

        assertThat(raised(FlagKind.POSITION_NOT_CONFIRMED, event("i", 0, inserted(null, true))))
                .isEmpty();
        assertThat(only(FlagKind.POSITION_NOT_CONFIRMED, in, event("p", 5, position(BalloonPosition.IN_THE_UTERUS)))
                        .end())
                .isEqualTo(minute(5));
        assertThat(only(FlagKind.POSITION_NOT_CONFIRMED, in, event("p", 5, position(BalloonPosition.DISPLACED)))
                        .ending())
                .satisfies(it -> assertThat(it.reason()).isEqualTo(FlagEndReason.SUPERSEDED));
    }

    @ParameterizedTest
    @CsvSource({
        "false,true,true,true,assembled",
        "true,false,true,true,leak-tested",
        "true,true,false,true,antiseptic",
        "true,true,true,false,sterile gloves"
    })
    void whatWasLeftOutOfThePreparationIsNamed(
            boolean assembled, boolean leakTested, boolean antiseptic, boolean gloves, String missing) {
        EventEnvelope prepared =
                event("p", 0, new TamponadePrepared(assembled, leakTested, antiseptic, gloves, StaffRole.MIDWIFE));
        EventEnvelope again = event("q", 4, new TamponadePrepared(true, true, true, true, StaffRole.MIDWIFE));

        Flag flag = only(FlagKind.PREPARATION_INCOMPLETE, prepared, again);
        assertThat(flag.text()).contains("missing: " + missing + ".");
        assertThat(flag.end()).isEqualTo(minute(4));
    }

    // Eur J Obstet Gynecol Reprod Biol 2021;258:317: more than 200 mL and more than 250 mL in 10 min.
    @ParameterizedTest
    @CsvSource({"200,10,0", "201,10,1", "250,10,1", "251,10,2", "251,11,0"})
    void lossSoonAfterTheInsertionWarns(int lostMl, int atMinute, int warnings) {
        EventEnvelope before = event("l0", 1, lost(400));
        EventEnvelope in = event("i", 2, Bedside.inserted());
        EventEnvelope after = event("l", 2 + atMinute, lost(lostMl));

        assertThat(raised(FlagKind.LOSS_AFTER_INSERTION, before, in, after)).hasSize(warnings);
        assertThat(raised(
                        FlagKind.LOSS_AFTER_INSERTION,
                        before,
                        in,
                        after,
                        event("q", 20, bleeding(BleedingAmount.NONE))))
                .allSatisfy(it -> assertThat(it.end()).isEqualTo(minute(20)));
    }

    @Test
    void aFirstResponseIsDueWithinItsTime() {
        List<EventEnvelope> none = List.of(event("r", 0, recognised()), event("v", 14, vitals(90, 110, 70)));
        EventEnvelope massage = event("m", 40, manoeuvre(ManoeuvreKind.UTERINE_MASSAGE, 40));

        assertThat(flags(file(none).advanceTo(minute(15)).after(), FlagKind.FIRST_RESPONSE_LATE))
                .isEmpty();
        assertThat(flags(file(none).advanceTo(minute(16)).after(), FlagKind.FIRST_RESPONSE_LATE))
                .singleElement()
                .satisfies(it -> assertThat(it.start()).isEqualTo(minute(15)));
        assertThat(only(FlagKind.FIRST_RESPONSE_LATE, none.get(0), massage).end())
                .isEqualTo(minute(40));
        assertThat(flags(
                        file(List.of(event("l", 3, lost(500))))
                                .advanceTo(minute(19))
                                .after(),
                        FlagKind.FIRST_RESPONSE_LATE))
                .singleElement()
                .satisfies(it -> assertThat(it.start()).isEqualTo(minute(18)));
    }

    // Oxytocin after the birth and a look at the uterus are routine: neither is a response to what came later.
    @Test
    void routineCareIsNoFirstResponse() {
        List<EventEnvelope> routine = new ArrayList<>(List.of(
                event("o", 0, given(Substance.OXYTOCIN, 10, "[iU]")),
                event("f", 1, given(Substance.CRYSTALLOID, 1, "L")),
                event("u", 2, new UterusChecked(UterineTone.FIRM, null)),
                event("l", 3, lost(500)),
                event("r", 10, recognised()),
                event("w", 12, new UterusChecked(UterineTone.FIRM, null))));

        assertThat(flags(file(routine).advanceTo(minute(19)).after(), FlagKind.FIRST_RESPONSE_LATE))
                .singleElement()
                .satisfies(it -> assertThat(it.start()).isEqualTo(minute(18)));
        for (ManoeuvreKind kind : ManoeuvreKind.values()) {
            List<EventEnvelope> responded = new ArrayList<>(routine);
            responded.add(event("m", 15, manoeuvre(kind, 15)));
            assertThat(flags(file(responded).advanceTo(minute(60)).after(), FlagKind.FIRST_RESPONSE_LATE))
                    .as(kind.code())
                    .isEmpty();
        }
        for (Substance substance : Substance.values()) {
            List<EventEnvelope> responded = new ArrayList<>(routine);
            responded.add(event("m", 15, given(substance, 1, "g")));
            assertThat(flags(file(responded).advanceTo(minute(60)).after(), FlagKind.FIRST_RESPONSE_LATE))
                    .as(substance.code())
                    .hasSize(substance == Substance.ANTIBIOTIC || substance == Substance.OTHER ? 1 : 0);
        }
    }

    // The amount of substance of haemoglobin stands beside a limit by mass; no limit is of the haematocrit.
    @Test
    void aResultThatNoLimitCanBeComparedWithIsInDoubt() {
        for (Analyte analyte : Analyte.values()) {
            List<LaboratoryLimit> limits = LaboratoryLimit.of(analyte);
            CaseFile file = file(List.of(event("h", 5, new Laboratory(analyte, new BigDecimal("4.1"), "m"))));
            assertThat(limits.stream().map(it -> it.setting().unit()).distinct())
                    .hasSizeLessThanOrEqualTo(1);
            assertThat(file.facts().stream()
                            .filter(it ->
                                    it instanceof RecordIssue issue && issue.kind() == IssueKind.RESULT_NOT_JUDGED))
                    .as(analyte.code())
                    .hasSize(limits.isEmpty() ? 0 : 1);
        }
    }

    // Gallos 2023: five measures; begun at 0, 3, 7, 10 and 13 min they are complete at 13 min, four of them never.
    @Test
    void theFirstResponseIsCompleteWithItsLastMeasure() {
        List<EventEnvelope> measures = List.of(
                event("r", 0, recognised()),
                event("m", 0, manoeuvre(ManoeuvreKind.UTERINE_MASSAGE, 0)),
                event("o", 3, given(Substance.OXYTOCIN, 10, "[iU]")),
                event("t", 7, given(Substance.TRANEXAMIC_ACID, 1, "g")),
                event("f", 10, given(Substance.CRYSTALLOID, 1, "L")),
                event("e", 13, manoeuvre(ManoeuvreKind.CAVITY_EXPLORED, 13)));

        assertThat(amounts(file(measures), FactKind.RECOGNITION_TO_FIRST_RESPONSE_COMPLETE))
                .containsExactly("13");
        assertThat(amounts(file(measures.subList(0, 5)), FactKind.RECOGNITION_TO_FIRST_RESPONSE_COMPLETE))
                .isEmpty();
    }

    // Charbit 2007; RCOG 47; Shaylor 2017; Oladapo 2009; Sohn 2018; WHO 2017 from memory (clotting time).
    @ParameterizedTest
    @CsvSource({
        "FIBRINOGEN,2.0,g/L,fibrinogen",
        "FIBRINOGEN,2.01,g/L,",
        "FIBRINOGEN,200,mg/dL,fibrinogen",
        "LACTATE,2.0,mmol/L,",
        "LACTATE,2.1,mmol/L,lactate-raised",
        "LACTATE,4.0,mmol/L,lactate-raised",
        "LACTATE,4.1,mmol/L,lactate-raised lactate-high",
        "HAEMOGLOBIN,10.0,g/dL,",
        "HAEMOGLOBIN,9.9,g/dL,anaemia",
        "HAEMOGLOBIN,8.1,g/dL,anaemia",
        "HAEMOGLOBIN,80,g/L,anaemia haemoglobin",
        "HAEMOGLOBIN,4.9,mmol/L,",
        "PLATELETS,75,10*9/L,",
        "PLATELETS,74,10*9/L,platelets",
        "PLATELETS,50000,/uL,platelets",
        "PLATELETS,49,10*3/uL,platelets platelets-critical",
        "CLOTTING_TIME,7,min,",
        "CLOTTING_TIME,421,s,clotting-time",
        "HAEMATOCRIT,17.5,%,"
    })
    void laboratoryResultsAreJudgedByTheirLimits(
            Analyte analyte, BigDecimal value, String unit, @Nullable String parts) {
        List<Flag> flags = raised(FlagKind.LABORATORY_ABNORMAL, event("x", 1, new Laboratory(analyte, value, unit)));

        assertThat(String.join(" ", flags.stream().map(it -> it.key().part()).toList()))
                .isEqualTo(parts == null ? "" : parts);
    }

    @Test
    void aCriticalResultWeighsMoreThanALowOne() {
        List<Flag> flags = raised(
                FlagKind.LABORATORY_ABNORMAL,
                event("x", 1, new Laboratory(Analyte.HAEMOGLOBIN, new BigDecimal(8), "g/dL")));

        assertThat(flags)
                .extracting(it -> it.severity() + " " + it.text() + " " + it.rule())
                .containsExactly(
                        "LOW Haemoglobin is low: postpartum anaemia. anaemia-below: < 100 g/L",
                        "HIGH Haemoglobin is very low. haemoglobin-kept-above: <= 80 g/L");
    }

    // A removal shows nothing of the bleeding.
    @Test
    void lossAfterAnInsertionIsNoLongerObservedWhenTheDeviceIsOut() {
        List<Flag> flags = raised(
                FlagKind.LOSS_AFTER_INSERTION,
                event("i", 0, Bedside.inserted()),
                event("l", 5, lost(300)),
                event("o", 30, removed(RemovalReason.FAILED)));

        assertThat(flags).hasSize(2).allSatisfy(it -> {
            assertThat(it.end()).isEqualTo(minute(30));
            assertThat(it.ending())
                    .satisfies(how -> assertThat(how.reason()).isEqualTo(FlagEndReason.NO_LONGER_OBSERVED));
        });
    }

    // WHO 2000: weight / height^2; 89.6 kg at 1.60 m is exactly 35.
    @ParameterizedTest
    @CsvSource({"89.6,8960", "89.7,6548"})
    void obesityBeginsAboveItsIndex(BigDecimal weightKg, String volumeMl) {
        Mother mother = new Mother(List.of(), null, null, null, weightKg, new BigDecimal(160), null, null, null);

        assertThat(amounts(
                        file(List.of(event("o", 0, new CaseOpened(mother, minute(0), Consent.GIVEN)))),
                        FactKind.ESTIMATED_BLOOD_VOLUME))
                .containsExactly(volumeMl);
    }

    @Test
    void aResultWithinTheLimitEndsTheWarning() {
        Flag flag = only(
                FlagKind.LABORATORY_ABNORMAL,
                event("a", 1, new Laboratory(Analyte.FIBRINOGEN, new BigDecimal("1.4"), "g/L")),
                event("b", 90, new Laboratory(Analyte.FIBRINOGEN, new BigDecimal("2.6"), "g/L")));

        assertThat(flag.end()).isEqualTo(minute(90));
    }

    // Sohn 2018: lactate above 4.0 with a shock index above 1.0; 4.1 with 1.01 meets it, 4.0 with 1.0 does not.
    @ParameterizedTest
    @CsvSource({"4.0,101,0", "4.1,100,0", "4.1,101,1"})
    void lactateAndShockIndexAreReadTogether(BigDecimal lactate, int pulse, int warnings) {
        EventEnvelope result = event("x", 1, new Laboratory(Analyte.LACTATE, lactate, "mmol/L"));

        for (EventEnvelope signs :
                List.of(event("v", 0, vitals(pulse, 100, 60)), event("v", 4, vitals(pulse, 100, 60)))) {
            assertThat(raised(FlagKind.LABORATORY_ABNORMAL, result, signs))
                    .filteredOn(it -> it.key().part().equals("lactate-with-shock-index"))
                    .hasSize(warnings);
        }
    }

    @Test
    void lactateIsReadWithTheShockIndexOfNow() {
        CaseFile file = file(List.of(
                event("x", 1, new Laboratory(Analyte.LACTATE, new BigDecimal("4.1"), "mmol/L")),
                event("v", 2, vitals(101, 100, 60)),
                event("w", 30, vitals(100, 100, 60))));

        assertThat(flags(file, FlagKind.LABORATORY_ABNORMAL))
                .filteredOn(it -> it.key().part().equals("lactate-with-shock-index"))
                .singleElement()
                .satisfies(it -> assertThat(it.end()).isEqualTo(minute(30)));
    }

    // KDIGO 2012: less than 0.5 mL/kg/h for 6 h; 68 kg, so less than 34 mL/h.
    @ParameterizedTest
    @CsvSource({"33,360,1", "33,359,0", "34,360,0"})
    void littleUrineByWeightForSixHoursWarns(int mlPerHour, int minutes, int warnings) {
        Mother mother = new Mother(List.of(), null, null, null, new BigDecimal(68), null, null, null, null);
        CaseFile file = file(List.of(
                event("o", 0, new CaseOpened(mother, minute(0), Consent.GIVEN)),
                event("u1", 180, urine(mlPerHour * 3, 0, 180)),
                event("u2", minutes, urine(mlPerHour * (minutes - 180) / 60, 180, minutes))));

        assertThat(flags(file, FlagKind.OLIGURIA))
                .filteredOn(it -> it.key().part().equals("rate-per-kg"))
                .hasSize(warnings);
        assertThat(amounts(file, FactKind.URINE_RATE_PER_KG)).hasSize(2);
    }

    // A published case (Citernesi): 12.6, 9.6 and 5.8 g/dL, a fall of 6.8 g/dL.
    @Test
    void theFallOfTheHaemoglobinCountsFromTheFirst() {
        CaseFile file = file(List.of(
                event("a", 0, new Laboratory(Analyte.HAEMOGLOBIN, new BigDecimal("12.6"), "g/dL")),
                event("b", 285, new Laboratory(Analyte.HAEMOGLOBIN, new BigDecimal("9.6"), "g/dL")),
                event("c", 420, new Laboratory(Analyte.HAEMOGLOBIN, new BigDecimal("58"), "g/L"))));

        assertThat(amounts(file, FactKind.HAEMOGLOBIN_FALL)).containsExactly("30", "68");
    }

    // Vricella 2015, a woman of 100 kg: 1500 mL of 100 mL/kg are 15.0 %, of 73 mL/kg 20.5 %. 1.69 m is a body mass
    // index of
    // 35.01, 1.691 m one of 34.97.
    @ParameterizedTest
    @CsvSource({"169,20.5,class-ii", "169.1,15.0,class-i"})
    void theBloodVolumeInObesityIsTheLowerOne(BigDecimal heightCm, String share, String lossClass) {
        Mother mother = new Mother(List.of(), null, null, null, new BigDecimal(100), heightCm, null, null, null);
        CaseFile file = file(
                List.of(event("o", 0, new CaseOpened(mother, minute(0), Consent.GIVEN)), event("l", 1, lost(1500))));

        assertThat(amounts(file, FactKind.SHARE_OF_BLOOD_VOLUME_LOST)).containsExactly(share);
        assertThat(answers(file, FactKind.HAEMORRHAGE_CLASS)).containsExactly(lossClass);
    }

    // ATLS by share, of 6000 mL: 15 % is class I still, 30 % class II, 40 % class III.
    @Test
    void theClassIsSaidWhenItChanges() {
        Mother mother = new Mother(List.of(), null, null, null, new BigDecimal(60), null, null, null, null);
        CaseFile file = file(List.of(
                event("o", 0, new CaseOpened(mother, minute(0), Consent.GIVEN)),
                event("a", 1, lost(900)),
                event("b", 2, lost(1)),
                event("c", 3, lost(899)),
                event("d", 4, lost(1)),
                event("e", 5, lost(599)),
                event("f", 6, lost(1))));

        assertThat(answers(file, FactKind.HAEMORRHAGE_CLASS))
                .containsExactly("class-i", "class-ii", "class-iii", "class-iv");
    }

    private static List<String> answers(CaseFile file, FactKind kind) {
        return file.facts().stream()
                .filter(it -> it instanceof DerivedValue value && value.kind() == kind)
                .map(it -> ((FactValue.Answer) ((DerivedValue) it).value())
                        .answer()
                        .code())
                .toList();
    }

    private static Birth birth(PlacentaState placenta) {
        return new Birth(minute(0), BirthMode.VAGINAL, List.of(new Baby(BabyOutcome.LIVE_BORN)), placenta);
    }

    private static Manoeuvre manoeuvre(ManoeuvreKind kind, int start) {
        return new Manoeuvre(kind, minute(start), null);
    }

    private static TamponadeInserted inserted(@Nullable LocalDate expiry, boolean positionConfirmed) {
        return new TamponadeInserted(
                new TamponadeDevice(DeviceKind.PURPOSE_MADE_BALLOON, null, expiry, null), null, positionConfirmed);
    }

    private static CaseFile file(List<EventEnvelope> events) {
        return CaseFile.of(Bedside.CASE, CareProtocol.standard(), new ArrayList<>(events));
    }

    private static Flag only(FlagKind kind, EventEnvelope... events) {
        List<Flag> flags = raised(kind, events);
        assertThat(flags).hasSize(1);
        return flags.get(0);
    }

    private static List<Flag> raised(FlagKind kind, EventEnvelope... events) {
        return flags(file(Arrays.asList(events)), kind);
    }

    private static List<String> amounts(CaseFile file, FactKind kind) {
        return file.facts().stream()
                .filter(it -> it instanceof DerivedValue value && value.kind() == kind)
                .map(it -> ((FactValue.Amount) ((DerivedValue) it).value())
                        .rounded()
                        .toPlainString())
                .toList();
    }
}
