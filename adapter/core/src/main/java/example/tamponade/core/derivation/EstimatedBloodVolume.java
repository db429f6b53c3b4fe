package example.tamponade.core.derivation;

import java.math.BigDecimal;

/**
 * Estimated blood volume of a woman, mL, shown without decimals: by weight alone, or by height and weight.
 *
 * <p>By weight: about 100 mL/kg at term; 65 mL/kg when not pregnant. Source: NHS Highland guideline on postpartum
 * haemorrhage. In obesity 73 mL/kg: Vricella LK et al., Am J Obstet Gynecol 2015;213:408.e1.
 *
 * <p>By height and weight: 0.3561 h^3 + 0.03308 w + 0.1833 litres, h in m, w in kg. Source: Nadler SB, Hidalgo JU, Bloch T,
 * Surgery 1962;51:224, formula for women. It knows no pregnancy and gives less than the weight alone does at term.
 */
public final class EstimatedBloodVolume {

    private static final BigDecimal NADLER_HEIGHT = new BigDecimal("0.3561");
    private static final BigDecimal NADLER_WEIGHT = new BigDecimal("0.03308");
    private static final BigDecimal NADLER_CONSTANT = new BigDecimal("0.1833");
    private static final int CENTIMETRE_DIGITS = 2;
    private static final int MILLILITRE_DIGITS = 3;

    private EstimatedBloodVolume() {}

    /**
     * The volume by weight alone.
     *
     * @param weightKg body weight, kg
     * @param millilitresPerKg blood by weight, mL/kg, from the care protocol
     */
    public static FactValue.Amount ofWeight(BigDecimal weightKg, BigDecimal millilitresPerKg) {
        return new FactValue.Amount(weightKg.multiply(millilitresPerKg), "mL", 0);
    }

    /**
     * The volume by the formula of Nadler for women.
     *
     * @param heightCm body height, cm
     * @param weightKg body weight, kg
     */
    public static FactValue.Amount nadlerWomen(BigDecimal heightCm, BigDecimal weightKg) {
        BigDecimal heightM = heightCm.movePointLeft(CENTIMETRE_DIGITS);
        BigDecimal litres = NADLER_HEIGHT
                .multiply(heightM.pow(3))
                .add(NADLER_WEIGHT.multiply(weightKg))
                .add(NADLER_CONSTANT);
        return new FactValue.Amount(litres.movePointRight(MILLILITRE_DIGITS), "mL", 0);
    }
}
