package example.tamponade.core.casefile;

import example.tamponade.core.derivation.AbsentReason;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.InfusionDose;
import example.tamponade.core.derivation.MedicineWindow;
import example.tamponade.core.event.Infusion;
import example.tamponade.core.event.MedicineGiven;
import example.tamponade.core.event.Substance;
import example.tamponade.core.protocol.Setting;
import example.tamponade.core.quantity.Conversion;
import example.tamponade.core.quantity.Ucum;
import java.math.BigDecimal;
import java.time.OffsetDateTime;
import java.util.List;

/** What was given so far, and the windows of the antifibrinolytic. */
final class MedicineFold {

    private MedicineFold() {}

    static FoldStep given(MedicineGiven medicine, FoldStep step) {
        begun(medicine.substance(), step);
        if (medicine.substance() == Substance.CRYSTALLOID) {
            fluid(medicine, step);
        } else if (InfusionFold.runOn(step)) {
            FluidFold.balance(step);
        }
        total(medicine.substance(), medicine.dose(), medicine.unit(), step.reading(Reading.EVENT), step);
        return step;
    }

    /** A dose was given, or a bag with one begins to run. */
    static void begun(Substance substance, FoldStep step) {
        if (step.progress.mark(Milestone.RECOGNISED) != null) {
            Milestones.reach(Milestone.FIRST_MEDICINE, step);
        }
        FirstResponseFold.given(substance, step);
        if (substance == Substance.TRANEXAMIC_ACID) {
            AntifibrinolyticFold.given(step);
            Milestones.reach(Milestone.ANTIFIBRINOLYTIC, step);
            step.end(FlagKind.ANTIFIBRINOLYTIC_WINDOW_CLOSING, "");
            step.callOff(FlagKind.ANTIFIBRINOLYTIC_WINDOW_CLOSED, "");
        }
    }

    /** The share of the dose in the bag that this volume of it holds. */
    static void ranIn(Infusion infusion, BigDecimal ranMl, FactInput by, FoldStep step) {
        if (infusion.dose() != null
                && infusion.unit() != null
                && InfusionDose.given(infusion.dose(), infusion.unit(), infusion.bagVolumeMl(), ranMl)
                        instanceof FactValue.Amount dose) {
            total(infusion.substance(), dose.value(), infusion.unit(), by, step);
        }
    }

    private static void fluid(MedicineGiven medicine, FoldStep step) {
        if (Ucum.convert(medicine.dose(), medicine.unit(), "mL") instanceof Conversion.Converted millilitres) {
            FluidFold.in(millilitres.value(), step);
        }
    }

    private static void total(Substance substance, BigDecimal dose, String unit, FactInput by, FoldStep step) {
        switch (substance) {
            case OXYTOCIN -> total(FactKind.OXYTOCIN_TOTAL, "[iU]", dose, unit, by, step);
            case CARBETOCIN -> total(FactKind.CARBETOCIN_TOTAL, "ug", dose, unit, by, step);
            case ERGOMETRINE -> total(FactKind.ERGOMETRINE_TOTAL, "ug", dose, unit, by, step);
            case MISOPROSTOL -> total(FactKind.MISOPROSTOL_TOTAL, "ug", dose, unit, by, step);
            case TRANEXAMIC_ACID -> total(FactKind.ANTIFIBRINOLYTIC_TOTAL, "mg", dose, unit, by, step);
            case CRYSTALLOID, ANTIBIOTIC, OTHER -> {}
        }
    }

    private static void total(
            FactKind kind, String totalUnit, BigDecimal dose, String unit, FactInput by, FoldStep step) {
        MedicineState.Total before = step.medicines.totals().get(kind);
        List<FactInput> inputs = FoldStep.continuing(before == null ? null : before.fact(), by);
        if (Ucum.convert(dose, unit, totalUnit) instanceof Conversion.Converted converted) {
            BigDecimal amount =
                    before == null ? converted.value() : before.amount().add(converted.value());
            FactKey fact = step.derive(kind, new FactValue.Amount(amount, totalUnit, 0), inputs);
            step.medicines = step.medicines.with(kind, new MedicineState.Total(amount, fact));
        } else {
            step.derive(kind, new FactValue.Missing(AbsentReason.UNIT_NOT_CONVERTIBLE), inputs);
        }
    }

    /** How much of the window is left when the haemorrhage is recognised. */
    static void windowLeft(FoldStep step) {
        Progress.Mark birth = step.progress.mark(Milestone.BIRTH);
        if (birth != null) {
            step.derive(
                    FactKind.ANTIFIBRINOLYTIC_WINDOW_LEFT,
                    MedicineWindow.left(
                            birth.at().toInstant(),
                            step.at().toInstant(),
                            step.duration(Setting.ANTIFIBRINOLYTIC_WINDOW)),
                    List.of(new FactInput.OfEvent(birth.event(), Reading.EVENT), step.reading(Reading.EVENT)));
        }
    }

    /**
     * Once birth is known, and the haemorrhage is recognised or the criterion for it is met, the window runs until the
     * antifibrinolytic is given.
     */
    static void awaitWindow(FoldStep step) {
        Progress.Mark birth = step.progress.mark(Milestone.BIRTH);
        boolean given = step.progress.mark(Milestone.ANTIFIBRINOLYTIC) != null;
        boolean haemorrhage =
                step.progress.mark(Milestone.RECOGNISED) != null || step.stands(FlagKind.HAEMORRHAGE_CRITERION, "");
        if (birth == null || !haemorrhage || given) {
            return;
        }
        FactInput evidence = new FactInput.OfEvent(birth.event(), Reading.EVENT);
        OffsetDateTime end = birth.at().plus(step.duration(Setting.ANTIFIBRINOLYTIC_WINDOW));
        String rule = "antifibrinolytic-window: "
                + step.value(Setting.ANTIFIBRINOLYTIC_WINDOW).toPlainString() + " h after birth";
        step.await(
                FlagKind.ANTIFIBRINOLYTIC_WINDOW_CLOSING,
                "",
                end.minus(step.duration(Setting.ANTIFIBRINOLYTIC_WARNING_BEFORE)),
                Severity.HIGH,
                "The window for tranexamic acid closes soon and none is on record.",
                rule,
                evidence);
        step.await(
                FlagKind.ANTIFIBRINOLYTIC_WINDOW_CLOSED,
                "",
                end,
                Severity.MODERATE,
                "The window for tranexamic acid closed and none was on record in it.",
                rule,
                evidence);
        step.replaces(FlagKind.ANTIFIBRINOLYTIC_WINDOW_CLOSED, FlagKind.ANTIFIBRINOLYTIC_WINDOW_CLOSING);
    }

    static boolean uterotonic(Substance substance) {
        return switch (substance) {
            case OXYTOCIN, CARBETOCIN, ERGOMETRINE, MISOPROSTOL -> true;
            case TRANEXAMIC_ACID, CRYSTALLOID, ANTIBIOTIC, OTHER -> false;
        };
    }
}
