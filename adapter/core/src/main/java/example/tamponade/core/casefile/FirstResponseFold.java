package example.tamponade.core.casefile;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.FirstLineBundle;
import example.tamponade.core.derivation.TamponadeCondition;
import example.tamponade.core.event.Coded;
import example.tamponade.core.event.Manoeuvre;
import example.tamponade.core.event.Substance;
import example.tamponade.core.event.SuspectedCause;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** What was done before a device was inserted. */
final class FirstResponseFold {

    private FirstResponseFold() {}

    static FoldStep manoeuvre(Manoeuvre manoeuvre, FoldStep step) {
        switch (manoeuvre.kind()) {
            case UTERINE_MASSAGE -> step.progress = step.progress.taken(FirstLineBundle.MASSAGE);
            case CAVITY_EXPLORED -> {
                examined(step);
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
        step.progress = step.progress.taken(FirstLineBundle.EXAMINATION);
    }

    // A uterotonic given to prevent a haemorrhage is not part of the response to one.
    static void given(Substance substance, FoldStep step) {
        boolean recognised = step.progress.mark(Milestone.RECOGNISED) != null;
        if (recognised && MedicineFold.uterotonic(substance)) {
            step.progress = step.progress.taken(FirstLineBundle.OXYTOCIC);
        } else if (substance == Substance.TRANEXAMIC_ACID) {
            step.progress = step.progress.taken(FirstLineBundle.TRANEXAMIC_ACID);
        } else if (substance == Substance.CRYSTALLOID) {
            step.progress = step.progress.taken(FirstLineBundle.INTRAVENOUS_FLUID);
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
