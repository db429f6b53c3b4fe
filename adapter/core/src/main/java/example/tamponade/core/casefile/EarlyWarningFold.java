package example.tamponade.core.casefile;

import example.tamponade.core.event.Consciousness;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * Which published criteria of early warning a set of vital signs meets. Every criterion is strict: a sign at its limit
 * does not meet it.
 *
 * <p>Source: Mhyre JM et al., Obstet Gynecol 2014;124:782, doi 10.1097/AOG.0000000000000480.
 */
final class EarlyWarningFold {

    private final VitalSigns signs;
    private final FoldStep step;
    private boolean warned;

    private EarlyWarningFold(VitalSigns signs, FoldStep step) {
        this.signs = signs;
        this.step = step;
    }

    static void fold(VitalSigns signs, FoldStep step) {
        EarlyWarningFold fold = new EarlyWarningFold(signs, step);
        fold.criteria();
        if (fold.warned) {
            StabilityFold.unstable(step);
        }
        fold.abnormalSigns();
    }

    private void criteria() {
        if (Boolean.TRUE.equals(signs.pressureUnrecordable())) {
            criterion("systolic-low", true, "Blood pressure could not be recorded.", "", Reading.BLOOD_PRESSURE);
        }
        below(
                "systolic-low",
                signs.systolic(),
                Setting.WARNING_SYSTOLIC_BELOW,
                "Systolic pressure",
                Reading.BLOOD_PRESSURE);
        above(
                "systolic-high",
                signs.systolic(),
                Setting.WARNING_SYSTOLIC_ABOVE,
                "Systolic pressure",
                Reading.BLOOD_PRESSURE);
        above(
                "diastolic-high",
                signs.diastolic(),
                Setting.WARNING_DIASTOLIC_ABOVE,
                "Diastolic pressure",
                Reading.BLOOD_PRESSURE);
        below("pulse-low", signs.pulse(), Setting.WARNING_PULSE_BELOW, "Pulse", Reading.PULSE);
        above("pulse-high", signs.pulse(), Setting.WARNING_PULSE_ABOVE, "Pulse", Reading.PULSE);
        below(
                "respirations-low",
                signs.respirations(),
                Setting.WARNING_RESPIRATIONS_BELOW,
                "Respiratory rate",
                Reading.RESPIRATIONS);
        above(
                "respirations-high",
                signs.respirations(),
                Setting.WARNING_RESPIRATIONS_ABOVE,
                "Respiratory rate",
                Reading.RESPIRATIONS);
        below(
                "saturation-low",
                signs.oxygenSaturation(),
                Setting.WARNING_SATURATION_BELOW,
                "Oxygen saturation",
                Reading.OXYGEN_SATURATION);
        if (signs.consciousness() != null) {
            criterion(
                    "consciousness",
                    signs.consciousness() != Consciousness.A,
                    "The mother is not alert.",
                    "consciousness: not A on the AVPU scale",
                    Reading.CONSCIOUSNESS);
        }
    }

    private void below(String part, @Nullable BigDecimal value, Setting limit, String what, Reading reading) {
        if (value != null) {
            BigDecimal from = step.value(limit);
            String words = what + " is below " + from.toPlainString() + " " + written(limit) + ".";
            criterion(part, value.compareTo(from) < 0, words, rule(limit, "<", from), reading);
        }
    }

    private void above(String part, @Nullable BigDecimal value, Setting limit, String what, Reading reading) {
        if (value != null) {
            BigDecimal to = step.value(limit);
            String words = what + " is above " + to.toPlainString() + " " + written(limit) + ".";
            criterion(part, value.compareTo(to) > 0, words, rule(limit, ">", to), reading);
        }
    }

    // Those at the bedside write mmHg; the rule keeps the UCUM code.
    private static String written(Setting limit) {
        return limit.unit().equals("mm[Hg]") ? "mmHg" : limit.unit();
    }

    private static String rule(Setting limit, String relation, BigDecimal value) {
        return limit.code() + ": " + relation + " " + value.toPlainString() + " " + limit.unit();
    }

    private void criterion(String part, boolean met, String text, String rule, Reading reading) {
        if (met) {
            warned = true;
            String fired = rule.isEmpty() ? "warning-systolic-below: pressure sought and not recordable" : rule;
            step.raise(FlagKind.EARLY_WARNING, part, Severity.HIGH, text, fired, step.reading(reading));
            step.confirm(FlagKind.EARLY_WARNING, part, step.reading(reading));
        } else {
            step.end(FlagKind.EARLY_WARNING, part);
        }
    }

    // The four signs of the combined criterion of haemorrhage: each has limits of its own in the protocol.
    private void abnormalSigns() {
        boolean pulse = exceeds(signs.pulse(), Setting.ABNORMAL_PULSE_ABOVE);
        boolean systolic = fallsShort(signs.systolic(), Setting.ABNORMAL_SYSTOLIC_BELOW)
                || Boolean.TRUE.equals(signs.pressureUnrecordable());
        boolean diastolic = fallsShort(signs.diastolic(), Setting.ABNORMAL_DIASTOLIC_BELOW);
        FactInput index = highIndexNow();
        if (systolic || diastolic) {
            step.vitals = step.vitals.abnormal(step.reading(Reading.BLOOD_PRESSURE));
        } else if (pulse) {
            step.vitals = step.vitals.abnormal(step.reading(Reading.PULSE));
        } else if (index != null) {
            step.vitals = step.vitals.abnormal(index);
        } else if (signs.pulse() != null && signs.systolic() != null) {
            step.vitals = step.vitals.abnormal(null);
        }
    }

    private @Nullable FactInput highIndexNow() {
        VitalsState.Index index = step.vitals.lastIndex();
        if (index == null || !index.fact().anchor().equals(step.event)) {
            return null;
        }
        return exceeds(index.value(), Setting.ABNORMAL_SHOCK_INDEX_ABOVE) ? new FactInput.OfFact(index.fact()) : null;
    }

    private boolean exceeds(@Nullable BigDecimal value, Setting limit) {
        return value != null && value.compareTo(step.value(limit)) > 0;
    }

    private boolean fallsShort(@Nullable BigDecimal value, Setting limit) {
        return value != null && value.compareTo(step.value(limit)) < 0;
    }
}
