package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.math.BigDecimal;

/**
 * Class of haemorrhage by the blood lost, as a volume or as a share of the blood volume.
 *
 * <p>Printed bounds overlap (750 mL ends class I and begins class II); here the lower class includes its upper bound, and
 * what lies between two whole printed bounds belongs to the upper class. The volumes are those of a man of 70 kg: in
 * pregnancy the class by volume may be higher than the class by share, so both are given.
 *
 * <p>Source: American College of Surgeons, Advanced Trauma Life Support, as reprinted in Rossaint R et al., Crit Care 2010,
 * cc8943, table 2.
 */
public enum AtlsClass implements Coded {
    /** Up to 15 %. */
    CLASS_I,
    /** 15 to 30 %. */
    CLASS_II,
    /** 30 to 40 %. */
    CLASS_III,
    /** Above 40 %. */
    CLASS_IV;

    /**
     * Where the classes end; all three in mL or all three in %, from the care protocol.
     *
     * @param firstTo last value of class I
     * @param secondTo last value of class II
     * @param thirdTo last value of class III
     */
    public record Bounds(BigDecimal firstTo, BigDecimal secondTo, BigDecimal thirdTo) {}

    /**
     * The class of a loss.
     *
     * @param lost unrounded blood loss, in the unit of the bounds
     * @param bounds where the classes end
     */
    public static AtlsClass of(BigDecimal lost, Bounds bounds) {
        if (lost.compareTo(bounds.firstTo()) <= 0) {
            return CLASS_I;
        }
        if (lost.compareTo(bounds.secondTo()) <= 0) {
            return CLASS_II;
        }
        return lost.compareTo(bounds.thirdTo()) <= 0 ? CLASS_III : CLASS_IV;
    }
}
