package example.tamponade.core.casefile;

import java.math.BigDecimal;
import org.pcollections.HashTreePMap;
import org.pcollections.PMap;

/**
 * Medicines so far.
 *
 * @param totals what was given of each totalled medicine
 */
record MedicineState(PMap<FactKind, Total> totals) {

    static final MedicineState NONE = new MedicineState(HashTreePMap.empty());

    /**
     * What was given of a medicine.
     *
     * @param amount in the unit of its total
     * @param fact the fact that holds it
     */
    record Total(BigDecimal amount, FactKey fact) {}
}
