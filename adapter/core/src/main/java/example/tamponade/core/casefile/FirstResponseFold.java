package example.tamponade.core.casefile;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.FirstLineBundle;
import example.tamponade.core.derivation.TamponadeCondition;
import example.tamponade.core.event.Coded;
import example.tamponade.core.event.Manoeuvre;
import example.tamponade.core.event.Substance;
import example.tamponade.core.event.SuspectedCause;
import example.tamponade.core.protocol.Setting;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** What was done before a device was inserted. */
final class FirstResponseFold {

    private FirstResponseFold() {}

    static FoldStep manoeuvre(Manoeuvre manoeuvre, FoldStep step) {
        responded(step);
        switch (manoeuvre.kind()) {
            case UTERINE_MASSAGE -> take(FirstLineBundle.MASSAGE, step);
            case CAVITY_EXPLORED -> {
                examined(step);
                step.end(FlagKind.PLACENTA_NOT_COMPLETE, "");
                step.progress = step.progress.excluded(SuspectedCause.TISSUE);
            }
            case TEAR_REPAIRED -> {
                examined(step);
                step.progress = step.progress.excluded(SuspectedCause.TRAUMA);
            }
            case BIMANUAL_COMPRESSION, AORTIC_COMPRESSION, ANTI_SHOCK_GARMENT, BLADDER_EMPTIED -> {}
        }
        return step;
    }

    static void examined(FoldStep step) {
        take(FirstLineBundle.EXAMINATION, step);
    }

    // A uterotonic given to prevent a haemorrhage is not part of the response to one.
    static void given(Substance substance, FoldStep step) {
        boolean recognised = step.progress.mark(Milestone.RECOGNISED) != null;
        if (substance != Substance.ANTIBIOTIC && substance != Substance.OTHER) {
            responded(step);
        }
        if (recognised && MedicineFold.uterotonic(substance)) {
            take(FirstLineBundle.OXYTOCIC, step);
        } else if (substance == Substance.TRANEXAMIC_ACID) {
            take(FirstLineBundle.TRANEXAMIC_ACID, step);
        } else if (substance == Substance.CRYSTALLOID) {
            take(FirstLineBundle.INTRAVENOUS_FLUID, step);
        }
    }

    private static void take(FirstLineBundle measure, FoldStep step) {
        step.progress = step.progress.taken(measure);
        if (FirstLineBundle.missing(step.progress.firstLine()).isEmpty()) {
            Milestones.reach(Milestone.FIRST_RESPONSE_COMPLETE, step);
        }
    }

    // To look is part of the bundle, but stops no bleeding: a check of the uterus alone is no response.
    private static void responded(FoldStep step) {
        step.end(FlagKind.FIRST_RESPONSE_LATE, "");
    }

    /** A measure of the first response is due from now; what was given or done before was not in response to this. */
    static void await(String rule, FoldStep step) {
        if (!step.closed()) {
            step.await(
                    FlagKind.FIRST_RESPONSE_LATE,
                    "",
                    step.at().plus(step.duration(Setting.FIRST_RESPONSE_WITHIN)),
                    Severity.HIGH,
                    "No measure of the first response is on record since the haemorrhage was known.",
                    rule + ", " + step.value(Setting.FIRST_RESPONSE_WITHIN).toPlainString() + " min",
                    step.reading(Reading.EVENT));
        }
    }

    /** Sums up at an insertion what went before it. */
    static void sumUp(FoldStep step) {
        Set<FirstLineBundle> taken = step.progress.firstLine();
        if (taken.contains(FirstLineBundle.OXYTOCIC)) {
            step.progress = step.progress.recorded(TamponadeCondition.FIRST_LINE_FAILED);
        }
        checklist(FactKind.FIRST_RESPONSE_BUNDLE, FirstLineBundle.values(), taken, step);
        checklist(FactKind.TAMPONADE_CONDITIONS, TamponadeCondition.values(), step.progress.conditions(), step);
    }

    private static <T extends Coded> void checklist(FactKind kind, T[] all, Set<T> done, FoldStep step) {
        List<FactValue.Item> items = new ArrayList<>();
        for (T one : all) {
            items.add(new FactValue.Item(one, done.contains(one)));
        }
        step.derive(kind, new FactValue.Checklist(items), List.of(step.reading(Reading.TAMPONADE)), null, step.event);
    }
}
