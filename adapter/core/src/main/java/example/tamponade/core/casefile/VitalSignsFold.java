package example.tamponade.core.casefile;

import example.tamponade.core.derivation.AbsentReason;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.MeanArterialPressure;
import example.tamponade.core.derivation.PulsePressure;
import example.tamponade.core.derivation.ShockIndex;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.core.protocol.Band;
import example.tamponade.core.protocol.Setting;
import java.time.Duration;
import java.time.Instant;
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
        if (pulse != null || pressure != null) {
            pair(pulse == null ? before.pulse() : pulse, pressure == null ? before.pressure() : pressure, step);
        }
        step.vitals = new VitalsState(
                pulse == null ? before.pulse() : pulse, pressure == null ? before.pressure() : pressure);
        pressures(signs, step);
        return step;
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

    private static void pair(VitalsState.@Nullable Last pulse, VitalsState.@Nullable Last pressure, FoldStep step) {
        boolean unrecordableNow =
                pressure != null && pressure.value() == null && pressure.event().equals(step.event);
        boolean paired = pulse != null && pressure != null && near(pulse.at(), pressure.at(), step);
        if (!paired && !unrecordableNow) {
            return;
        }
        List<FactInput> inputs = new ArrayList<>();
        if (pulse != null && paired) {
            inputs.add(new FactInput.OfEvent(pulse.event(), Reading.PULSE));
        }
        if (pressure != null) {
            inputs.add(new FactInput.OfEvent(pressure.event(), Reading.BLOOD_PRESSURE));
        }
        FactValue value = shockIndex(pulse, pressure);
        Band band = bandOf(value, step);
        flag(band, step.derive(FactKind.SHOCK_INDEX, value, inputs, band, null), step);
    }

    private static FactValue shockIndex(VitalsState.@Nullable Last pulse, VitalsState.@Nullable Last pressure) {
        if (pressure == null || pressure.value() == null) {
            return new FactValue.Missing(AbsentReason.PRESSURE_UNRECORDABLE);
        }
        if (pulse == null || pulse.value() == null) {
            return new FactValue.Missing(AbsentReason.INPUT_MISSING);
        }
        return ShockIndex.of(pulse.value(), pressure.value());
    }

    // A pressure too low to be heard is the top band: no number must not look like no danger.
    private static Band bandOf(FactValue value, FoldStep step) {
        return value instanceof FactValue.Amount amount
                ? step.protocol.shockIndexBands().of(amount.value())
                : Band.CRITICAL;
    }

    private static void flag(Band band, FactKey fact, FoldStep step) {
        FactInput evidence = new FactInput.OfFact(fact);
        switchFlag(Band.RAISED, band, Severity.MODERATE, "Shock index is raised.", evidence, step);
        switchFlag(
                Band.CRITICAL,
                band,
                Severity.HIGH,
                "Shock index is in the top band, or the pressure could not be recorded.",
                evidence,
                step);
    }

    private static void switchFlag(
            Band wanted, Band band, Severity severity, String text, FactInput evidence, FoldStep step) {
        if (band != wanted) {
            step.end(FlagKind.SHOCK_INDEX_RAISED, wanted.code());
            return;
        }
        String from = (wanted == Band.CRITICAL
                        ? step.protocol.shockIndexBands().criticalFrom()
                        : step.protocol.shockIndexBands().raisedFrom())
                .toPlainString();
        step.raise(
                FlagKind.SHOCK_INDEX_RAISED,
                wanted.code(),
                severity,
                text,
                "shock-index: " + wanted.code() + " from " + from,
                evidence);
    }

    private static void pressures(VitalSigns signs, FoldStep step) {
        if (signs.systolic() == null || signs.diastolic() == null) {
            return;
        }
        List<FactInput> inputs = List.of(step.reading(Reading.BLOOD_PRESSURE));
        step.derive(
                FactKind.MEAN_ARTERIAL_PRESSURE, MeanArterialPressure.of(signs.systolic(), signs.diastolic()), inputs);
        step.derive(FactKind.PULSE_PRESSURE, PulsePressure.of(signs.systolic(), signs.diastolic()), inputs);
    }

    private static boolean near(Instant one, Instant other, FoldStep step) {
        Duration apart = Duration.between(one, other).abs();
        return apart.compareTo(step.protocol.duration(Setting.PAIRING_WINDOW)) <= 0;
    }
}
