package example.tamponade.core.casefile;

import example.tamponade.core.event.BalloonDrained;
import example.tamponade.core.event.BalloonFilled;
import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.Chamber;
import example.tamponade.core.event.DeviceKind;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.LossMethod;
import example.tamponade.core.event.LossReading;
import example.tamponade.core.event.Recorder;
import example.tamponade.core.event.StaffRole;
import example.tamponade.core.event.TamponadeDevice;
import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.event.VitalSigns;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.OffsetDateTime;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** The invented night at Quillmere Birth Post, minute by minute, for tests of the case file. */
final class Bedside {

    static final String CASE = "QBP-7";

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

    private static @Nullable BigDecimal decimal(@Nullable Integer value) {
        return value == null ? null : BigDecimal.valueOf(value);
    }
}
