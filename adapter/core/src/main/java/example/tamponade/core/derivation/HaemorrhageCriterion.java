package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.math.BigDecimal;
import java.util.Collection;

/**
 * Is it time to treat a haemorrhage, by volume alone or by a lower volume together with any abnormal sign? Both volumes
 * belong to their criterion: exactly the volume meets it.
 *
 * <p>Source: WHO, FIGO and ICM, Consolidated guidelines for the prevention, diagnosis and treatment of postpartum
 * haemorrhage, 2025, ISBN 978-92-4-011563-7 (500 mL; 300 mL with an abnormal vital sign).
 */
public enum HaemorrhageCriterion implements Coded {
    /** Not met. */
    NOT_MET,
    /** Met by the lower volume and an abnormal sign. */
    VOLUME_AND_SIGN,
    /** Met by the volume alone. */
    VOLUME_ALONE;

    /**
     * Whether and how the criterion is met.
     *
     * @param lostMl unrounded cumulative blood loss, mL
     * @param abnormal abnormal signs, as the rules of the care protocol find them
     * @param withSignFromMl first volume that needs a sign beside it, mL, from the care protocol
     * @param aloneFromMl first volume that is enough alone, mL, from the care protocol
     */
    public static HaemorrhageCriterion of(
            BigDecimal lostMl, Collection<FiredSign> abnormal, BigDecimal withSignFromMl, BigDecimal aloneFromMl) {
        if (lostMl.compareTo(aloneFromMl) >= 0) {
            return VOLUME_ALONE;
        }
        return lostMl.compareTo(withSignFromMl) >= 0 && !abnormal.isEmpty() ? VOLUME_AND_SIGN : NOT_MET;
    }
}
