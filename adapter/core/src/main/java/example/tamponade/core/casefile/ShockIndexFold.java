package example.tamponade.core.casefile;

import example.tamponade.core.derivation.AbsentReason;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.ShockIndex;
import example.tamponade.core.derivation.ShockIndexChange;
import example.tamponade.core.protocol.Band;
import example.tamponade.core.protocol.Bands;
import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Pairs the latest pulse with the latest pressure and says where their ratio stands. */
final class ShockIndexFold {

    private static final String UNRECORDABLE = "unrecordable";

    private ShockIndexFold() {}

    static void fold(FoldStep step) {
        VitalsState.Last pulse = step.vitals.pulse();
        VitalsState.Last pressure = step.vitals.pressure();
        if (pressure != null && pressure.value() != null && pressure.event().equals(step.event)) {
            step.end(FlagKind.SHOCK_INDEX_RAISED, UNRECORDABLE);
        }
        boolean paired = pulse != null && pressure != null && near(pulse, pressure, step);
        if (!paired && !unrecordableNow(pressure, step)) {
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
        FactKey fact = step.derive(FactKind.SHOCK_INDEX, value, inputs, bandOf(value, step), null);
        flag(value, fact, step);
        if (value instanceof FactValue.Amount amount) {
            changes(new VitalsState.Index(amount.value(), fact), step);
        }
    }

    private static boolean unrecordableNow(VitalsState.@Nullable Last pressure, FoldStep step) {
        return pressure != null && pressure.value() == null && pressure.event().equals(step.event);
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

    private static void changes(VitalsState.Index now, FoldStep step) {
        VitalsState.Index first = isOf(now, step.vitals.firstIndex()) ? null : step.vitals.firstIndex();
        VitalsState.Index before =
                isOf(now, step.vitals.lastIndex()) ? step.vitals.indexBefore() : step.vitals.lastIndex();
        change(FactKind.SHOCK_INDEX_CHANGE_SINCE_FIRST, first, now, step);
        change(FactKind.SHOCK_INDEX_CHANGE_SINCE_LAST, before, now, step);
        boolean afterBirth = step.progress.mark(Milestone.BIRTH) != null;
        step.vitals = step.vitals.indices(first == null && afterBirth ? now : first, now, before);
        LaboratoryFold.withShockIndex(step);
    }

    // Whether that index is the one of this instant, as it was before its further readings.
    private static boolean isOf(VitalsState.Index now, VitalsState.@Nullable Index index) {
        return index != null && index.fact().equals(now.fact());
    }

    private static void change(
            FactKind kind, VitalsState.@Nullable Index before, VitalsState.Index now, FoldStep step) {
        if (before != null) {
            step.derive(
                    kind,
                    ShockIndexChange.of(before.value(), now.value()),
                    List.of(new FactInput.OfFact(before.fact()), new FactInput.OfFact(now.fact())));
        }
    }

    // A pressure too low to be heard is the top band: no number must not look like no danger.
    private static Band bandOf(FactValue value, FoldStep step) {
        return value instanceof FactValue.Amount amount
                ? step.protocol.shockIndexBands().of(amount.value())
                : Band.CRITICAL;
    }

    private static void flag(FactValue value, FactKey fact, FoldStep step) {
        Bands bands = step.protocol.shockIndexBands();
        flag(Band.RAISED, Severity.MODERATE, bands.raisedFrom(), "Shock index is raised.", value, fact, step);
        flag(Band.HIGH, Severity.HIGH, bands.highFrom(), "Shock index is high.", value, fact, step);
        flag(
                Band.CRITICAL,
                Severity.HIGH,
                bands.criticalFrom(),
                "Shock index is in the top band, or the pressure could not be recorded.",
                value,
                fact,
                step);
        flagUnrecordable(value, fact, step);
    }

    // Above every number.
    private static void flagUnrecordable(FactValue value, FactKey fact, FoldStep step) {
        if (!(value instanceof FactValue.Amount)) {
            step.raise(
                    FlagKind.SHOCK_INDEX_RAISED,
                    UNRECORDABLE,
                    Severity.HIGH,
                    "The pressure could not be recorded, which is worse than any shock index.",
                    "blood pressure sought and not recordable, ends when it can be recorded",
                    new FactInput.OfFact(fact));
        }
    }

    // The flag of a band stands from its begin upwards and ends only well below it, so that it does not flap.
    private static void flag(
            Band band, Severity severity, BigDecimal from, String text, FactValue value, FactKey fact, FoldStep step) {
        BigDecimal endsBelow = from.subtract(step.value(Setting.SHOCK_INDEX_HYSTERESIS));
        if (!(value instanceof FactValue.Amount amount) || amount.value().compareTo(from) >= 0) {
            step.raise(
                    FlagKind.SHOCK_INDEX_RAISED,
                    band.code(),
                    severity,
                    text,
                    "shock-index: " + band.code() + " from " + from.toPlainString() + ", ends below "
                            + endsBelow.toPlainString(),
                    new FactInput.OfFact(fact));
        } else if (amount.value().compareTo(endsBelow) < 0) {
            step.end(FlagKind.SHOCK_INDEX_RAISED, band.code());
        }
    }

    private static boolean near(VitalsState.Last one, VitalsState.Last other, FoldStep step) {
        Duration apart = Duration.between(one.at(), other.at()).abs();
        return apart.compareTo(step.duration(Setting.PAIRING_WINDOW)) <= 0;
    }
}
