package example.tamponade.core.casefile;

import example.tamponade.core.derivation.AbsentReason;
import example.tamponade.core.derivation.AtlsClass;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.ShareLost;
import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** What a total of blood loss means: thresholds crossed, share of the blood volume, the combined criterion. */
final class SeverityFold {

    private SeverityFold() {}

    static void fold(FactKey total, FoldStep step) {
        shareLost(total, step);
        severity(total, step);
        if (step.closed()) {
            return;
        }
        flagThreshold(Setting.HAEMORRHAGE_VOLUME, Severity.MODERATE, total, step);
        flagThreshold(Setting.SEVERE_HAEMORRHAGE_VOLUME, Severity.HIGH, total, step);
        flagMassive(total, step);
        criterion(step);
        InsertionLossFold.lost(total, step);
    }

    /** Asked at every total and at every set of vital signs: is there enough loss, or some loss with an abnormal sign? */
    static void criterion(FoldStep step) {
        FactKey total = step.loss.lastFact();
        FactInput abnormal = step.vitals.abnormal();
        BigDecimal lossMl = step.loss.total();
        boolean byVolume = lossMl.compareTo(step.value(Setting.HAEMORRHAGE_VOLUME)) >= 0;
        boolean bySign = abnormal != null && lossMl.compareTo(step.value(Setting.CRITERION_VOLUME)) >= 0;
        if (step.closed() || total == null || !(byVolume || bySign)) {
            return;
        }
        FactInput loss = new FactInput.OfFact(total);
        boolean first = !step.stands(FlagKind.HAEMORRHAGE_CRITERION, "");
        step.raise(
                FlagKind.HAEMORRHAGE_CRITERION,
                "",
                Severity.HIGH,
                "Blood loss, alone or with an abnormal sign, meets the criterion for action.",
                "criterion-volume: >= " + plain(Setting.CRITERION_VOLUME, step) + " mL with an abnormal sign, or >= "
                        + plain(Setting.HAEMORRHAGE_VOLUME, step) + " mL",
                bySign ? new FactInput[] {loss, Objects.requireNonNull(abnormal)} : new FactInput[] {loss});
        if (first && step.progress.mark(Milestone.RECOGNISED) == null) {
            MedicineFold.awaitWindow(step);
            FirstResponseFold.await("first-response-within: counted from the criterion for action", step);
        }
    }

    private static void shareLost(FactKey total, FoldStep step) {
        BigDecimal bloodVolumeMl = step.progress.body().bloodVolumeMl();
        FactKey bloodVolume = step.progress.body().bloodVolumeFact();
        if (bloodVolumeMl != null && bloodVolume != null) {
            FactValue share = ShareLost.of(step.loss.total(), bloodVolumeMl);
            FactKey fact = step.derive(
                    FactKind.SHARE_OF_BLOOD_VOLUME_LOST,
                    share,
                    List.of(new FactInput.OfFact(total), new FactInput.OfFact(bloodVolume)));
            classify(share, fact, step);
        } else {
            step.deriveAbsent(
                    FactKind.SHARE_OF_BLOOD_VOLUME_LOST, AbsentReason.WEIGHT_MISSING, new FactInput.OfFact(total));
        }
    }

    private static void classify(FactValue share, FactKey fact, FoldStep step) {
        if (!(share instanceof FactValue.Amount percent)) {
            return;
        }
        AtlsClass now = AtlsClass.of(
                percent.value(),
                new AtlsClass.Bounds(
                        step.value(Setting.LOSS_CLASS_I_TO),
                        step.value(Setting.LOSS_CLASS_II_TO),
                        step.value(Setting.LOSS_CLASS_III_TO)));
        if (now != step.loss.lossClass()) {
            step.loss = step.loss.of(now);
            step.derive(FactKind.HAEMORRHAGE_CLASS, new FactValue.Answer(now), List.of(new FactInput.OfFact(fact)));
        }
    }

    private static void severity(FactKey total, FoldStep step) {
        HaemorrhageSeverity reached = reached(step);
        if (reached != null && (step.progress.severity() == null || reached.compareTo(step.progress.severity()) > 0)) {
            step.progress = step.progress.with(reached);
            step.derive(
                    FactKind.HAEMORRHAGE_SEVERITY, new FactValue.Answer(reached), List.of(new FactInput.OfFact(total)));
        }
    }

    // Massive is strictly above its volume, as the source grades it; the others include theirs.
    private static @Nullable HaemorrhageSeverity reached(FoldStep step) {
        BigDecimal lossMl = step.loss.total();
        if (lossMl.compareTo(step.value(Setting.MASSIVE_HAEMORRHAGE_VOLUME)) > 0) {
            return HaemorrhageSeverity.MASSIVE;
        }
        if (lossMl.compareTo(step.value(Setting.SEVERE_HAEMORRHAGE_VOLUME)) >= 0) {
            return HaemorrhageSeverity.SEVERE;
        }
        return lossMl.compareTo(step.value(Setting.HAEMORRHAGE_VOLUME)) >= 0 ? HaemorrhageSeverity.HAEMORRHAGE : null;
    }

    private static void flagThreshold(Setting threshold, Severity severity, FactKey total, FoldStep step) {
        if (step.loss.total().compareTo(step.value(threshold)) >= 0) {
            step.raise(
                    FlagKind.BLOOD_LOSS_THRESHOLD,
                    threshold.code(),
                    severity,
                    "Blood loss has reached " + plain(threshold, step) + " mL.",
                    threshold.code() + ": cumulative blood loss >= " + plain(threshold, step) + " mL",
                    new FactInput.OfFact(total));
        }
    }

    private static void flagMassive(FactKey total, FoldStep step) {
        if (reached(step) == HaemorrhageSeverity.MASSIVE) {
            String volume = plain(Setting.MASSIVE_HAEMORRHAGE_VOLUME, step);
            step.raise(
                    FlagKind.BLOOD_LOSS_THRESHOLD,
                    Setting.MASSIVE_HAEMORRHAGE_VOLUME.code(),
                    Severity.HIGH,
                    "Blood loss is above " + volume + " mL: the haemorrhage is massive.",
                    Setting.MASSIVE_HAEMORRHAGE_VOLUME.code() + ": cumulative blood loss > " + volume + " mL",
                    new FactInput.OfFact(total));
        }
    }

    private static String plain(Setting setting, FoldStep step) {
        return step.value(setting).toPlainString();
    }
}
