package example.tamponade.core.derivation;

import java.math.BigDecimal;

/**
 * What a visual estimate of blood loss may hide: loss = seen x 100 / (100 - missed %), mL, shown without decimals; and
 * missed % = 100 x (loss - seen) / loss, %, shown with 1 decimal. A caution beside the estimate, never in its place.
 *
 * <p>Source: Al Kadri HM et al., Arch Gynecol Obstet 2011;283:1207 (about 30 % missed); WHO, Managing Complications in
 * Pregnancy and Childbirth (often half). Visual estimates at caesarean may also read too high: Doctorvaladan SV et al.,
 * 2017, doi 10.1055/s-0037-1601382.
 */
public final class VisualUnderestimate {

    private static final BigDecimal HUNDRED = BigDecimal.valueOf(100);

    private VisualUnderestimate() {}

    /**
     * The loss when that share of it was missed.
     *
     * @param seenMl visual estimate, mL
     * @param missedPercent share of the loss that estimates miss, %, from the care protocol; 100 gives no value
     */
    public static FactValue possibleLoss(BigDecimal seenMl, BigDecimal missedPercent) {
        return Quotient.of(seenMl.multiply(HUNDRED), HUNDRED.subtract(missedPercent), "mL", 0);
    }

    /**
     * The share of a measured loss that the estimate missed.
     *
     * @param seenMl visual estimate, mL
     * @param measuredMl measured loss, mL; zero gives no value
     */
    public static FactValue missedShare(BigDecimal seenMl, BigDecimal measuredMl) {
        return Quotient.percent(measuredMl.subtract(seenMl), measuredMl);
    }
}
