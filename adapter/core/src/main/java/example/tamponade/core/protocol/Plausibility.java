package example.tamponade.core.protocol;

import example.tamponade.core.event.BalloonDrained;
import example.tamponade.core.event.BalloonFilled;
import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.Birth;
import example.tamponade.core.event.BleedingChecked;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.BloodProductGiven;
import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.EventTable;
import example.tamponade.core.event.HaemorrhageRecognised;
import example.tamponade.core.event.HelpCalled;
import example.tamponade.core.event.Infusion;
import example.tamponade.core.event.Laboratory;
import example.tamponade.core.event.Manoeuvre;
import example.tamponade.core.event.MedicineGiven;
import example.tamponade.core.event.Mother;
import example.tamponade.core.event.Note;
import example.tamponade.core.event.Outcome;
import example.tamponade.core.event.ReadinessChecked;
import example.tamponade.core.event.Referral;
import example.tamponade.core.event.SymptomsChecked;
import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.event.TamponadePositionChecked;
import example.tamponade.core.event.TamponadePrepared;
import example.tamponade.core.event.TamponadeRemoved;
import example.tamponade.core.event.Urine;
import example.tamponade.core.event.UterusChecked;
import example.tamponade.core.event.VitalSigns;
import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** Are an event's values possible, and are they plausible? Asked of one event alone, whatever its case holds. */
public final class Plausibility {

    private static final EventTable<Judgement, Judgement> CHECKS = EventTable.<Judgement, Judgement>of()
            .on(CaseOpened.class, (it, found) -> mother(it.mother(), found))
            .on(Birth.class, (it, found) -> found)
            .on(HaemorrhageRecognised.class, (it, found) -> found)
            .on(HelpCalled.class, (it, found) -> found)
            .on(Manoeuvre.class, (it, found) -> found.span("end", it.start(), it.end()))
            .on(MedicineGiven.class, Plausibility::medicine)
            .on(Infusion.class, Plausibility::infusion)
            .on(
                    BloodProductGiven.class,
                    (it, found) -> found.range(Measure.PRODUCT_UNITS, "units", it.units())
                            .range(Measure.PRODUCT_VOLUME, "volumeMl", it.volumeMl()))
            .on(BloodLoss.class, Plausibility::bloodLoss)
            .on(VitalSigns.class, Plausibility::vitalSigns)
            .on(UterusChecked.class, (it, found) -> found.range(Measure.FUNDAL_HEIGHT, "fundusCm", it.fundusCm()))
            .on(BleedingChecked.class, (it, found) -> found)
            .on(SymptomsChecked.class, (it, found) -> found)
            .on(
                    Urine.class,
                    (it, found) -> found.range(Measure.URINE_VOLUME, "volumeMl", it.volumeMl())
                            .span("to", it.from(), it.to()))
            .on(
                    Laboratory.class,
                    (it, found) -> it.value().signum() < 0
                            ? found.impossible("value", it.value() + " " + it.unit() + " is below zero")
                            : found)
            .on(TamponadePrepared.class, (it, found) -> found)
            .on(
                    TamponadeInserted.class,
                    (it, found) -> found.range(
                            Measure.CHAMBER_CAPACITY,
                            "device/capacityMl",
                            it.device().capacityMl()))
            .on(BalloonFilled.class, (it, found) -> found.range(Measure.CHAMBER_STEP, "volumeMl", it.volumeMl()))
            .on(BalloonDrained.class, (it, found) -> found.range(Measure.CHAMBER_STEP, "volumeMl", it.volumeMl()))
            .on(TamponadePositionChecked.class, (it, found) -> found)
            .on(TamponadeRemoved.class, (it, found) -> found)
            .on(Referral.class, (it, found) -> found)
            .on(Outcome.class, (it, found) -> found)
            .on(Note.class, (it, found) -> found)
            .on(
                    ReadinessChecked.class,
                    (it, found) -> found.range(
                            Measure.THEATRE_MINUTES, "theatreReachableMinutes", it.theatreReachableMinutes()))
            .complete();

    private Plausibility() {}

    /** Everything in the event that the protocol does not expect; empty when nothing. */
    public static List<Finding> judge(EventEnvelope event, CareProtocol protocol) {
        List<Finding> findings = new ArrayList<>(times(event, protocol));
        BedsideEvent data = event.data();
        if (data != null) {
            findings.addAll(CHECKS.handle(data, new Judgement(protocol)).findings());
        }
        return findings;
    }

    private static List<Finding> times(EventEnvelope event, CareProtocol protocol) {
        Duration tolerance = protocol.duration(Setting.CLOCK_TOLERANCE);
        OffsetDateTime latest = event.recordedAt().plus(tolerance);
        if (!event.occurredAt().isAfter(latest)) {
            return List.of();
        }
        return List.of(new Finding(
                Finding.Grade.IMPOSSIBLE,
                "/occurredAt",
                event.occurredAt() + " is more than " + tolerance.toMinutes() + " min after the event was recorded at "
                        + event.recordedAt(),
                "correct the time it happened, or set the recording clock"));
    }

    private static Judgement mother(Mother it, Judgement found) {
        return found.range(Measure.AGE, "mother/ageYears", it.ageYears())
                .range(Measure.BODY_WEIGHT, "mother/weightKg", it.weightKg())
                .range(Measure.BODY_HEIGHT, "mother/heightCm", it.heightCm())
                .range(Measure.PREGNANCIES, "mother/gravida", it.gravida())
                .range(Measure.PREGNANCIES, "mother/para", it.para())
                .range(Measure.GESTATION, "mother/gestationWeeks", it.gestationWeeks());
    }

    private static Judgement medicine(MedicineGiven it, Judgement found) {
        return dose(it.dose(), it.unit(), found);
    }

    private static Judgement dose(BigDecimal dose, String unit, Judgement found) {
        return dose.signum() <= 0
                ? found.impossible("dose", dose + " " + unit + " is no dose; it must be above zero")
                : found;
    }

    private static Judgement infusion(Infusion it, Judgement found) {
        Judgement ranges = found.range(Measure.BAG_VOLUME, "bagVolumeMl", it.bagVolumeMl())
                .range(Measure.INFUSION_RATE, "rateMlPerHour", it.rateMlPerHour());
        return it.dose() == null ? ranges : dose(it.dose(), Objects.requireNonNull(it.unit()), ranges);
    }

    private static Judgement bloodLoss(BloodLoss it, Judgement found) {
        return found.range(Measure.LOSS_READING, "volumeMl", it.volumeMl())
                .range(Measure.ITEM_WEIGHT, "wetG", it.wetG())
                .range(Measure.ITEM_WEIGHT, "dryG", it.dryG())
                .range(Measure.OTHER_FLUID, "otherFluidMl", it.otherFluidMl())
                .order("dryG", it.dryG(), "wetG", it.wetG())
                .order("otherFluidMl", it.otherFluidMl(), "volumeMl", it.volumeMl())
                .order("otherFluidMl", it.otherFluidMl(), "wetG less dryG, in mL,", weighedMl(it, found));
    }

    private static @Nullable BigDecimal weighedMl(BloodLoss it, Judgement found) {
        return it.wetG() == null || it.dryG() == null
                ? null
                : it.wetG().subtract(it.dryG()).divide(found.value(Setting.BLOOD_DENSITY), MathContext.DECIMAL128);
    }

    private static Judgement vitalSigns(VitalSigns it, Judgement found) {
        return found.range(Measure.PULSE, "pulse", it.pulse())
                .range(Measure.SYSTOLIC, "systolic", it.systolic())
                .range(Measure.DIASTOLIC, "diastolic", it.diastolic())
                .range(Measure.RESPIRATIONS, "respirations", it.respirations())
                .range(Measure.OXYGEN_SATURATION, "oxygenSaturation", it.oxygenSaturation())
                .range(Measure.TEMPERATURE, "temperatureC", it.temperatureC())
                .order("diastolic", it.diastolic(), "systolic", it.systolic());
    }
}
