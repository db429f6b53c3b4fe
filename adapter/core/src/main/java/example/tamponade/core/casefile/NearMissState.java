package example.tamponade.core.casefile;

import example.tamponade.core.derivation.NearMissCriterion;
import java.math.BigDecimal;
import java.time.OffsetDateTime;
import org.jspecify.annotations.Nullable;
import org.pcollections.HashTreePSet;
import org.pcollections.PSet;

/**
 * What the criteria of a near miss look back to.
 *
 * @param lowSystolicSince begin of the unbroken run of low systolic pressures; absent when the latest was not low
 * @param lowSaturationSince the same for low saturations
 * @param unconsciousSince the same for checks at which she did not respond
 * @param lowUrineSince begin of the unbroken run of low collections of urine; absent when the latest was not low
 * @param urineUntil end of the latest collection of urine; absent before the first
 * @param redCellUnits units of blood and red cells given
 * @param met the criteria met so far
 */
record NearMissState(
        @Nullable OffsetDateTime lowSystolicSince,
        @Nullable OffsetDateTime lowSaturationSince,
        @Nullable OffsetDateTime unconsciousSince,
        @Nullable OffsetDateTime lowUrineSince,
        @Nullable OffsetDateTime urineUntil,
        BigDecimal redCellUnits,
        PSet<NearMissCriterion> met) {

    static final NearMissState NONE =
            new NearMissState(null, null, null, null, null, BigDecimal.ZERO, HashTreePSet.empty());

    NearMissState signs(
            @Nullable OffsetDateTime lowSystolic,
            @Nullable OffsetDateTime lowSaturation,
            @Nullable OffsetDateTime unconscious) {
        return new NearMissState(lowSystolic, lowSaturation, unconscious, lowUrineSince, urineUntil, redCellUnits, met);
    }

    NearMissState urine(@Nullable OffsetDateTime lowSince, OffsetDateTime until) {
        return new NearMissState(
                lowSystolicSince, lowSaturationSince, unconsciousSince, lowSince, until, redCellUnits, met);
    }

    NearMissState units(BigDecimal units) {
        return new NearMissState(
                lowSystolicSince, lowSaturationSince, unconsciousSince, lowUrineSince, urineUntil, units, met);
    }

    NearMissState met(PSet<NearMissCriterion> reached) {
        return new NearMissState(
                lowSystolicSince,
                lowSaturationSince,
                unconsciousSince,
                lowUrineSince,
                urineUntil,
                redCellUnits,
                reached);
    }
}
