package example.tamponade.fhir.mapping;

import java.math.BigDecimal;
import java.util.Map;
import org.hl7.fhir.r4.model.Quantity;

/** Amounts with a UCUM unit, and how they are written for people. */
final class Quantities {

    private static final String UCUM = "http://unitsofmeasure.org";

    // What people write where the UCUM code reads oddly.
    private static final Map<String, String> WRITTEN = Map.of(
            "mm[Hg]", "mmHg",
            "Cel", "°C",
            "wk", "weeks",
            "a", "years",
            "[iU]", "IU",
            "{count}", "count",
            "{ratio}", "ratio",
            "{tablet}", "tablets");

    private Quantities() {}

    static Quantity of(BigDecimal value, String unit) {
        return new Quantity()
                .setValue(plain(value))
                .setUnit(WRITTEN.getOrDefault(unit, unit))
                .setSystem(UCUM)
                .setCode(unit);
    }

    static Quantity of(int value, String unit) {
        return of(BigDecimal.valueOf(value), unit);
    }

    /** The amount in words, for example {@code 118 /min}; a bare number where the unit only counts. */
    static String words(Quantity quantity) {
        String number = quantity.getValue().toPlainString();
        boolean bare =
                quantity.getCode().equals("{count}") || quantity.getCode().equals("{ratio}");
        return bare ? number : number + " " + quantity.getUnit();
    }

    // Never 1E+2: readers of the JSON may not know the notation.
    private static BigDecimal plain(BigDecimal value) {
        return value.scale() < 0 ? value.setScale(0) : value;
    }
}
