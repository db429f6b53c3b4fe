package example.tamponade.core.derivation;

import java.math.BigDecimal;

/**
 * Share of the blood volume that was lost = 100 x loss / estimated blood volume, %, shown with 1 decimal. It may pass 100
 * when blood was replaced meanwhile.
 *
 * <p>Source: arithmetic; classes by share in Rossaint R et al., Crit Care 2010, cc8943, table 2.
 */
public final class ShareLost {

    private ShareLost() {}

    /**
     * Divides the loss by the blood volume.
     *
     * @param lostMl cumulative blood loss, mL
     * @param bloodVolumeMl estimated blood volume, mL; zero gives no value
     */
    public static FactValue of(BigDecimal lostMl, BigDecimal bloodVolumeMl) {
        return Quotient.percent(lostMl, bloodVolumeMl);
    }
}
