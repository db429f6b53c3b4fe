package example.tamponade.core.casefile;

import example.tamponade.core.derivation.ReadinessShare;
import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;
import org.pcollections.HashTreePMap;
import org.pcollections.HashTreePSet;
import org.pcollections.PMap;
import org.pcollections.PSet;
import org.pcollections.PVector;
import org.pcollections.TreePVector;

/**
 * What is known of a case after one of its events. Everything in it is bounded by windows or by what the case has, never
 * by how many events there were.
 *
 * @param progress how far the case has come
 * @param loss blood loss
 * @param vitals vital signs
 * @param tamponades each insertion, in order
 * @param urine urine
 * @param fluids fluids in and out
 * @param medicines medicines given
 * @param checks checks done and due
 * @param stability what is on record of the signs by which stability is judged
 * @param laboratory laboratory results
 * @param nearMiss what the criteria of a near miss look back to
 * @param readiness checks of a facility's readiness that the share of days reaches back to; empty in a case
 * @param openFlags flags that stand, by slot
 * @param timers flags that time alone will bring, by slot
 * @param absent what has been said to have no value
 * @param instant what was derived at the instant of the last event
 * @param fundusCm the latest height of the fundus, cm; absent before it was felt
 */
record CaseState(
        Progress progress,
        LossState loss,
        VitalsState vitals,
        PVector<Tamponade> tamponades,
        UrineState urine,
        FluidState fluids,
        MedicineState medicines,
        CheckState checks,
        StabilityState stability,
        LaboratoryState laboratory,
        NearMissState nearMiss,
        PVector<ReadinessShare.Checked> readiness,
        PMap<String, Flag> openFlags,
        PMap<String, Timer> timers,
        PSet<FactKind> absent,
        InstantState instant,
        @Nullable BigDecimal fundusCm) {

    static final CaseState EMPTY = new CaseState(
            Progress.NONE,
            LossState.NONE,
            VitalsState.NONE,
            TreePVector.empty(),
            UrineState.NONE,
            FluidState.NONE,
            MedicineState.NONE,
            CheckState.NONE,
            StabilityState.NONE,
            LaboratoryState.NONE,
            NearMissState.NONE,
            TreePVector.empty(),
            HashTreePMap.empty(),
            HashTreePMap.empty(),
            HashTreePSet.empty(),
            InstantState.NONE,
            null);
}
