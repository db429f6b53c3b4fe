package example.tamponade.core.casefile;

import example.tamponade.core.derivation.AbsentReason;
import example.tamponade.core.derivation.BodyMassIndex;
import example.tamponade.core.derivation.EstimatedBloodVolume;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.TamponadeCondition;
import example.tamponade.core.event.Birth;
import example.tamponade.core.event.BirthMode;
import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.HaemorrhageRecognised;
import example.tamponade.core.event.Mother;
import example.tamponade.core.event.PlacentaState;
import example.tamponade.core.event.SuspectedCause;
import example.tamponade.core.protocol.BloodVolumeMethod;
import example.tamponade.core.protocol.Phase;
import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import java.util.List;

/** How a case begins: the mother, the birth and the recognition of the haemorrhage. */
final class OpeningFold {

    private OpeningFold() {}

    static FoldStep opened(CaseOpened opening, FoldStep step) {
        Milestones.reach(Milestone.OPENED, step);
        Mother mother = opening.mother();
        FactValue volume = bloodVolume(mother, step);
        FactKey fact = step.derive(FactKind.ESTIMATED_BLOOD_VOLUME, volume, bloodVolumeInputs(mother, step));
        step.progress = step.progress.with(new Progress.Body(
                mother.weightKg(), volume instanceof FactValue.Amount amount ? amount.value() : null, fact));
        return step;
    }

    private static FactValue bloodVolume(Mother mother, FoldStep step) {
        if (mother.weightKg() == null) {
            return new FactValue.Missing(AbsentReason.WEIGHT_MISSING);
        }
        BigDecimal heightCm = mother.heightCm();
        if (heightCm != null && byHeight(mother, step)) {
            return EstimatedBloodVolume.nadlerWomen(heightCm, mother.weightKg());
        }
        return EstimatedBloodVolume.ofWeight(
                mother.weightKg(),
                step.value(obese(mother, step) ? Setting.BLOOD_VOLUME_PER_KG_OBESITY : Setting.BLOOD_VOLUME_PER_KG));
    }

    private static boolean byHeight(Mother mother, FoldStep step) {
        return step.protocol.bloodVolumeMethod() == BloodVolumeMethod.HEIGHT_WEIGHT && mother.heightCm() != null;
    }

    private static boolean obese(Mother mother, FoldStep step) {
        return mother.heightCm() != null
                && mother.weightKg() != null
                && BodyMassIndex.isAbove(step.value(Setting.OBESITY_ABOVE), mother.weightKg(), mother.heightCm());
    }

    private static List<FactInput> bloodVolumeInputs(Mother mother, FoldStep step) {
        if (mother.weightKg() == null) {
            return List.of(step.reading(Reading.EVENT));
        }
        return byHeight(mother, step) || obese(mother, step)
                ? List.of(step.reading(Reading.MOTHER_HEIGHT), step.reading(Reading.MOTHER_WEIGHT))
                : List.of(step.reading(Reading.MOTHER_WEIGHT));
    }

    static FoldStep born(Birth birth, FoldStep step) {
        Milestones.reach(Milestone.BIRTH, step);
        if (birth.mode() != BirthMode.CAESAREAN) {
            step.progress = step.progress.recorded(TamponadeCondition.VAGINAL_BIRTH);
        }
        if (birth.placentaDelivered() == PlacentaState.COMPLETE) {
            step.progress = step.progress.excluded(SuspectedCause.TISSUE);
        }
        placenta(birth.placentaDelivered(), step);
        MedicineFold.awaitWindow(step);
        return step;
    }

    private static void placenta(PlacentaState state, FoldStep step) {
        if (state == PlacentaState.INCOMPLETE || state == PlacentaState.RETAINED) {
            step.raise(
                    FlagKind.PLACENTA_NOT_COMPLETE,
                    "",
                    Severity.HIGH,
                    "The placenta is not complete: tissue may be left in the uterus.",
                    "placenta " + state.code() + ", ends when the cavity is explored",
                    step.reading(Reading.EVENT));
        }
    }

    static FoldStep recognised(HaemorrhageRecognised recognition, FoldStep step) {
        boolean first = step.progress.mark(Milestone.RECOGNISED) == null;
        Milestones.reach(Milestone.RECOGNISED, step);
        if (recognition.suspectedCause().contains(SuspectedCause.TONE)) {
            step.progress = step.progress.recorded(TamponadeCondition.ATONY);
        }
        if (first) {
            MedicineFold.windowLeft(step);
            if (!step.stands(FlagKind.HAEMORRHAGE_CRITERION, "")) {
                MedicineFold.awaitWindow(step);
                FirstResponseFold.await("first-response-within: counted from recognition", step);
            }
            CheckFold.enter(Phase.NOT_INSERTED, step);
        }
        return step;
    }
}
