package example.tamponade.core.casefile;

import java.math.BigDecimal;
import org.pcollections.HashTreePMap;
import org.pcollections.PMap;

/**
 * Medicines so far.
 *
 * @param totals what was given of each totalled medicine
 * @param secondAntifibrinolytic whether a second dose of the antifibrinolytic was given
 */
record MedicineState(PMap<FactKind, Total> totals, boolean secondAntifibrinolytic) {

    static final MedicineState NONE = new MedicineState(HashTreePMap.empty(), false);

    /**
     * What was given of a medicine.
     *
     * @param amount in the unit of its total
     * @param fact the fact that holds it
     */
    record Total(BigDecimal amount, FactKey fact) {}
}
