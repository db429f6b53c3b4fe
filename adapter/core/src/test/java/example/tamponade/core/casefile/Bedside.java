package example.tamponade.core.casefile;

import example.tamponade.core.event.Baby;
import example.tamponade.core.event.BabyOutcome;
import example.tamponade.core.event.BalloonDrained;
import example.tamponade.core.event.BalloonFilled;
import example.tamponade.core.event.BalloonPosition;
import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.Birth;
import example.tamponade.core.event.BirthMode;
import example.tamponade.core.event.BleedingAmount;
import example.tamponade.core.event.BleedingChecked;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.CaseId;
import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.Chamber;
import example.tamponade.core.event.DeviceKind;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.Guidance;
import example.tamponade.core.event.HaemorrhageRecognised;
import example.tamponade.core.event.LossMethod;
import example.tamponade.core.event.LossReading;
import example.tamponade.core.event.MedicineGiven;
import example.tamponade.core.event.Mother;
import example.tamponade.core.event.MotherOutcome;
import example.tamponade.core.event.Outcome;
import example.tamponade.core.event.PlacentaState;
import example.tamponade.core.event.RecognitionCriterion;
import example.tamponade.core.event.Recorder;
import example.tamponade.core.event.Referral;
import example.tamponade.core.event.ReferralReason;
import example.tamponade.core.event.ReferralStep;
import example.tamponade.core.event.RemovalReason;
import example.tamponade.core.event.Route;
import example.tamponade.core.event.StaffRole;
import example.tamponade.core.event.Substance;
import example.tamponade.core.event.SuspectedCause;
import example.tamponade.core.event.TamponadeDevice;
import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.event.TamponadePositionChecked;
import example.tamponade.core.event.TamponadeRemoved;
import example.tamponade.core.event.Urine;
import example.tamponade.core.event.UterineTone;
import example.tamponade.core.event.UterusChecked;
import example.tamponade.core.event.VitalSigns;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** The invented night at Quillmere Birth Post, minute by minute, for tests of the case file. */
final class Bedside {

    static final CaseId CASE = new CaseId("quillmere-bp", "QBP-7");

    private static final OffsetDateTime BEGIN = OffsetDateTime.parse("2026-02-11T23:40:00+05:45");

    private Bedside() {}

    /** The id of the event with that name. */
    static UUID id(String name) {
        return UUID.nameUUIDFromBytes(name.getBytes(StandardCharsets.UTF_8));
    }

    static OffsetDateTime minute(int minute) {
        return BEGIN.plusMinutes(minute);
    }

    /** An event recorded two minutes after it happened. */
    static EventEnvelope event(String name, int minute, BedsideEvent data) {
        return envelope(name, minute, minute + 2, null, null, data);
    }

    static EventEnvelope correction(String name, String corrected, int minute, int recorded, BedsideEvent data) {
        return envelope(name, minute, recorded, id(corrected), null, data);
    }

    static EventEnvelope retraction(String name, String retracted, int minute) {
        return envelope(name, minute, minute + 2, null, id(retracted), null);
    }

    private static EventEnvelope envelope(
            String name,
            int minute,
            int recorded,
            @Nullable UUID corrects,
            @Nullable UUID retracts,
            @Nullable BedsideEvent data) {
        return new EventEnvelope(
                id(name),
                CASE,
                "quillmere-bp",
                minute(minute),
                minute(recorded),
                new Recorder("qm-01", StaffRole.MIDWIFE),
                null,
                corrects,
                retracts,
                data);
    }

    /** A whole round of checks at each of these minutes, of a mother who is well. */
    static List<EventEnvelope> watched(int from, int to, int every) {
        List<EventEnvelope> checks = new ArrayList<>();
        for (int minute = from; minute <= to; minute += every) {
            checks.add(event("bleeding at " + minute, minute, bleeding(BleedingAmount.NONE)));
            checks.add(event("pulse at " + minute, minute, vitals(84, null, null)));
            checks.add(event("pressure at " + minute, minute, vitals(null, 116, 74)));
            checks.add(event("fundus at " + minute, minute, fundus(0)));
        }
        return checks;
    }

    static VitalSigns vitals(@Nullable Integer pulse, @Nullable Integer systolic, @Nullable Integer diastolic) {
        return new VitalSigns(decimal(pulse), decimal(systolic), decimal(diastolic), null, null, null, null, null);
    }

    static VitalSigns pressureUnrecordable(@Nullable Integer pulse) {
        return new VitalSigns(decimal(pulse), null, null, true, null, null, null, null);
    }

    static BloodLoss lost(int millilitres) {
        return new BloodLoss(
                LossMethod.VISUAL, LossReading.INCREMENT, null, decimal(millilitres), null, null, null, null);
    }

    static BloodLoss weighed(int wetG, int dryG) {
        return new BloodLoss(
                LossMethod.WEIGHED, LossReading.INCREMENT, null, null, decimal(wetG), decimal(dryG), null, null);
    }

    static BloodLoss drape(String collector, int volumeMl, int otherFluidMl, boolean emptied) {
        return new BloodLoss(
                LossMethod.GRADUATED_DRAPE,
                LossReading.RUNNING_TOTAL,
                collector,
                decimal(volumeMl),
                null,
                null,
                decimal(otherFluidMl),
                emptied);
    }

    static TamponadeInserted inserted() {
        return new TamponadeInserted(
                new TamponadeDevice(DeviceKind.PURPOSE_MADE_BALLOON, null, null, decimal(500)), null, true);
    }

    static BalloonFilled filled(int millilitres) {
        return new BalloonFilled(Chamber.TAMPONADE, decimal(millilitres), null);
    }

    static BalloonDrained drained(int millilitres) {
        return new BalloonDrained(Chamber.TAMPONADE, decimal(millilitres), null);
    }

    static BleedingChecked bleeding(BleedingAmount amount) {
        return new BleedingChecked(amount, null);
    }

    static UterusChecked fundus(int centimetres) {
        return new UterusChecked(UterineTone.FIRM, BigDecimal.valueOf(centimetres));
    }

    static Urine urine(int millilitres, int fromMinute, int toMinute) {
        return new Urine(BigDecimal.valueOf(millilitres), minute(fromMinute), minute(toMinute));
    }

    static CaseOpened opened(@Nullable Integer weightKg) {
        Mother mother =
                new Mother(List.of(), null, null, null, decimal(weightKg), BigDecimal.valueOf(160), null, null, null);
        return new CaseOpened(mother, minute(0), null);
    }

    static Birth birth(int atMinute) {
        return new Birth(
                minute(atMinute), BirthMode.VAGINAL, List.of(new Baby(BabyOutcome.LIVE_BORN)), PlacentaState.COMPLETE);
    }

    static HaemorrhageRecognised recognised() {
        return new HaemorrhageRecognised(List.of(RecognitionCriterion.VOLUME), List.of(SuspectedCause.TONE));
    }

    static MedicineGiven given(Substance substance, int dose, String unit) {
        return new MedicineGiven(substance, null, BigDecimal.valueOf(dose), unit, Route.INTRAVENOUS);
    }

    static TamponadeRemoved removed(RemovalReason reason) {
        return new TamponadeRemoved(reason);
    }

    static Referral referral(ReferralStep step) {
        return new Referral(step, "Highmoor", ReferralReason.BLEEDING_NOT_CONTROLLED, true, null);
    }

    static TamponadePositionChecked position(BalloonPosition position) {
        return new TamponadePositionChecked(position, Guidance.HAND, true);
    }

    static Outcome outcome(MotherOutcome mother) {
        return new Outcome(mother, true);
    }

    /** The warnings of that kind, each as it is at the end. */
    static List<Flag> flags(CaseFile file, FlagKind kind) {
        return file.facts().stream()
                .filter(it -> it instanceof Flag flag && flag.kind() == kind)
                .map(Flag.class::cast)
                .toList();
    }

    private static @Nullable BigDecimal decimal(@Nullable Integer value) {
        return value == null ? null : BigDecimal.valueOf(value);
    }
}
