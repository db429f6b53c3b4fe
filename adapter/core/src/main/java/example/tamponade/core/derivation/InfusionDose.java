package example.tamponade.core.derivation;

import java.math.BigDecimal;

/**
 * Medicine in an infusion: dose an hour = dose in the bag / volume of the bag x rate; dose given = dose in the bag / volume
 * of the bag x volume given; both in the unit of the dose, shown with 1 decimal.
 *
 * <p>Source: arithmetic.
 */
public final class InfusionDose {

    private static final int SCALE = 1;

    private InfusionDose() {}

    /**
     * The dose an hour.
     *
     * @param bagDose medicine in the bag, in the unit
     * @param unit UCUM unit of the dose, for example {@code [iU]}
     * @param bagMl volume of the bag, mL; zero gives no value
     * @param rateMlPerH rate of the infusion, mL/h
     */
    public static FactValue perHour(BigDecimal bagDose, String unit, BigDecimal bagMl, BigDecimal rateMlPerH) {
        return Quotient.of(bagDose.multiply(rateMlPerH), bagMl, unit + "/h", SCALE);
    }

    /**
     * The dose given.
     *
     * @param bagDose medicine in the bag, in the unit
     * @param unit UCUM unit of the dose, for example {@code [iU]}
     * @param bagMl volume of the bag, mL; zero gives no value
     * @param givenMl volume given, mL
     */
    public static FactValue given(BigDecimal bagDose, String unit, BigDecimal bagMl, BigDecimal givenMl) {
        return Quotient.of(bagDose.multiply(givenMl), bagMl, unit, SCALE);
    }
}
