package example.tamponade.core.quantity;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.regex.Pattern;
import javax.measure.IncommensurableException;
import javax.measure.Unit;
import javax.measure.UnitConverter;
import javax.measure.format.UnitFormat;
import systems.uom.ucum.format.UCUMFormat;
import systems.uom.ucum.internal.format.TokenMgrError;
import tech.units.indriya.function.RationalNumber;

/** Is an amount in one UCUM unit, case-sensitive form, an amount in another, and how much is it there? */
public final class Ucum {

    // Rationals that do not end, as 5/9, come out at 34 digits; 15 remove their last-digit noise and keep every
    // digit that a bedside reading can have.
    private static final MathContext PRECISION = new MathContext(15, RoundingMode.HALF_UP);

    private static final Pattern POWER_OF_TEN = Pattern.compile("10[*^](\\d{1,2})");

    // No bedside unit is longer, or has a base to a power of two digits. Beyond it the parser takes seconds or all of
    // its
    // stack. What stands in brackets is part of a unit's name, and the 12 of 10*12 is read before.
    private static final int LONGEST = 50;
    private static final Pattern BRACKETS = Pattern.compile("\\[[^\\]]*]|\\{[^}]*}");
    private static final Pattern HIGH_POWER = Pattern.compile("[^\\d./(+*^-][+-]?\\d{2}");

    // Besides its own exceptions the unit library throws others, as a NullPointerException where it names a unit that
    // has no
    // name. Each means the same here: it does not know the unit.

    private Ucum() {}

    /**
     * Converts an amount between two UCUM units.
     *
     * @param value the amount in {@code from}
     * @param from UCUM code of the given unit, for example {@code [foz_us]}
     * @param to UCUM code of the wanted unit, for example {@code mL}
     * @return the amount to 15 significant digits, or why it has none: the unit is unknown, or of another kind (a mass is
     *     no volume without a density; an arbitrary unit as {@code [iU]} converts to itself only)
     */
    public static Conversion convert(BigDecimal value, String from, String to) {
        if (from.equals(to)) {
            return new Conversion.Converted(value);
        }
        try {
            return new Conversion.Converted(exact(converter(from, to).convert(value)));
        } catch (RuntimeException | TokenMgrError unknown) {
            return new Conversion.Refused("'" + shortened(from) + "' is not a UCUM unit (UCUM is case-sensitive)");
        } catch (IncommensurableException otherKind) {
            return new Conversion.Refused(
                    "'" + shortened(from) + "' does not measure the same kind of quantity as '" + to + "'");
        }
    }

    /** Whether the code is a unit that this table knows. */
    public static boolean isUnit(String code) {
        try {
            parse(code);
            return true;
        } catch (RuntimeException | TokenMgrError unknown) {
            return false;
        }
    }

    private static UnitConverter converter(String from, String to) throws IncommensurableException {
        return parse(from).getConverterToAny(parse(to));
    }

    // The parser keeps state while it reads, so each call takes its own. It does not know UCUM's powers of ten as
    // 10*9, which are written out for it.
    private static Unit<?> parse(String code) {
        if (code.isBlank()) {
            throw new IllegalArgumentException("a unit cannot be empty");
        }
        if (code.length() > LONGEST
                || HIGH_POWER.matcher(BRACKETS.matcher(code).replaceAll("]")).find()) {
            throw new IllegalArgumentException("a unit is short and has low powers");
        }
        String writtenOut =
                POWER_OF_TEN.matcher(code).replaceAll(it -> "1" + "0".repeat(Integer.parseInt(it.group(1))));
        UnitFormat format = UCUMFormat.getInstance(UCUMFormat.Variant.CASE_SENSITIVE);
        return format.parse(writtenOut);
    }

    private static String shortened(String code) {
        return code.length() > LONGEST ? code.substring(0, LONGEST) + "…" : code;
    }

    private static BigDecimal exact(Number number) {
        BigDecimal decimal =
                number instanceof RationalNumber it ? it.bigDecimalValue() : new BigDecimal(number.toString());
        return new BigDecimal(decimal.round(PRECISION).stripTrailingZeros().toPlainString());
    }
}
