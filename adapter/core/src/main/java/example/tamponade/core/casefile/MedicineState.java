package example.tamponade.core.casefile;

import java.math.BigDecimal;
import org.pcollections.HashTreePMap;
import org.pcollections.PMap;

/**
 * Medicines so far.
 *
 * @param totals what was given of each totalled medicine
 * @param secondAntifibrinolytic whether a second dose of the antifibrinolytic was given
 * @param infusions each line as it was last recorded, by its number
 */
record MedicineState(
        PMap<FactKind, Total> totals, boolean secondAntifibrinolytic, PMap<Integer, RunningInfusion> infusions) {

    static final MedicineState NONE = new MedicineState(HashTreePMap.empty(), false, HashTreePMap.empty());

    MedicineState with(FactKind kind, Total total) {
        return new MedicineState(totals.plus(kind, total), secondAntifibrinolytic, infusions);
    }

    MedicineState with(RunningInfusion infusion) {
        return new MedicineState(
                totals,
                secondAntifibrinolytic,
                infusions.plus(infusion.infusion().line(), infusion));
    }

    MedicineState withSecondAntifibrinolytic() {
        return new MedicineState(totals, true, infusions);
    }

    /**
     * What was given of a medicine.
     *
     * @param amount in the unit of its total
     * @param fact the fact that holds it
     */
    record Total(BigDecimal amount, FactKey fact) {}
}
