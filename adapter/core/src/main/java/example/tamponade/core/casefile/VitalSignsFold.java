package example.tamponade.core.casefile;

import example.tamponade.core.derivation.AbsentReason;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.MeanArterialPressure;
import example.tamponade.core.derivation.ModifiedShockIndex;
import example.tamponade.core.derivation.PulsePressure;
import example.tamponade.core.event.VitalSigns;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What a set of vital signs says alone and with the one before. */
final class VitalSignsFold {

    private VitalSignsFold() {}

    static FoldStep fold(VitalSigns signs, FoldStep step) {
        VitalsState.Last pulse = pulseOf(signs, step);
        VitalsState.Last pressure = pressureOf(signs, step);
        VitalsState before = step.vitals;
        step.vitals = before.readings(
                pulse == null ? before.pulse() : pulse, pressure == null ? before.pressure() : pressure);
        if (pulse != null || pressure != null) {
            ShockIndexFold.fold(step);
        }
        pressures(signs, step);
        EarlyWarningFold.fold(signs, step);
        SeverityFold.criterion(step);
        if (pulse != null || pressure != null) {
            CheckFold.signsChecked(step);
        }
        StabilityFold.checked(signsLookedAt(pulse, pressure), step);
        NearMissFold.signs(signs, step);
        return step;
    }

    private static List<StableSign> signsLookedAt(
            VitalsState.@Nullable Last pulse, VitalsState.@Nullable Last pressure) {
        List<StableSign> signs = new ArrayList<>();
        if (pulse != null) {
            signs.add(StableSign.PULSE);
        }
        if (pressure != null) {
            signs.add(StableSign.BLOOD_PRESSURE);
        }
        return signs;
    }

    private static VitalsState.@Nullable Last pulseOf(VitalSigns signs, FoldStep step) {
        return signs.pulse() == null
                ? null
                : new VitalsState.Last(step.event, step.at().toInstant(), signs.pulse());
    }

    private static VitalsState.@Nullable Last pressureOf(VitalSigns signs, FoldStep step) {
        boolean sought = signs.systolic() != null || Boolean.TRUE.equals(signs.pressureUnrecordable());
        return sought ? new VitalsState.Last(step.event, step.at().toInstant(), signs.systolic()) : null;
    }

    private static void pressures(VitalSigns signs, FoldStep step) {
        if (signs.systolic() == null) {
            return;
        }
        if (signs.diastolic() == null) {
            FactInput systolic = step.reading(Reading.BLOOD_PRESSURE);
            step.deriveAbsent(FactKind.MEAN_ARTERIAL_PRESSURE, AbsentReason.DIASTOLIC_MISSING, systolic);
            step.deriveAbsent(FactKind.PULSE_PRESSURE, AbsentReason.DIASTOLIC_MISSING, systolic);
            return;
        }
        List<FactInput> inputs = List.of(step.reading(Reading.BLOOD_PRESSURE));
        FactValue.Amount mean = MeanArterialPressure.of(signs.systolic(), signs.diastolic());
        FactKey meanFact = step.derive(FactKind.MEAN_ARTERIAL_PRESSURE, mean, inputs);
        step.derive(FactKind.PULSE_PRESSURE, PulsePressure.of(signs.systolic(), signs.diastolic()), inputs);
        if (signs.pulse() != null) {
            step.derive(
                    FactKind.MODIFIED_SHOCK_INDEX,
                    ModifiedShockIndex.of(signs.pulse(), mean.value()),
                    List.of(step.reading(Reading.PULSE), new FactInput.OfFact(meanFact)));
        }
    }
}
