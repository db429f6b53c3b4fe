package example.tamponade.app.register;

import example.tamponade.app.intake.ReasonCode;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Numbers as they are written in registers. A number that means another one where thousands are set apart differently is
 * never read: {@code 1.234} is 1234 to one writer and 1.234 to the other, whatever stands between the cells.
 */
final class NumberCells {

    private static final int LONGEST = 64;

    // Groups of three digits that a point, comma, apostrophe or space sets apart; no group begins with a zero.
    private static final Pattern THOUSANDS =
            Pattern.compile("[+-]?[1-9]\\d{0,2}([.,'’ \\u00A0\\u202F]\\d{3})+([.,]\\d+)?(?![\\d.,]).*");

    private static final Pattern POWER_OF_TEN = Pattern.compile("[+-]?[\\d.,]+[eE][+-]?\\d+.*");

    private static final Pattern NUMBER =
            Pattern.compile("([+-]?\\d+)(?:([.,])(\\d+))?(?:[\\s\\u00A0\\u202F]+(\\S.*))?");

    private NumberCells() {}

    /**
     * Reads a number, which a unit may follow behind a space.
     *
     * @param decimalComma whether decimals can be written with a comma
     */
    static CellValue read(String text, boolean decimalComma) {
        if (text.length() > LONGEST) {
            return CellValue.of(text);
        }
        if (THOUSANDS.matcher(text).matches()) {
            return CellValue.refused(
                    text,
                    ReasonCode.INVALID_VALUE,
                    "may hold a separator of thousands, or three decimals",
                    "write thousands as 1234, and decimals in another number than three, as 1.2 or 1.2340");
        }
        if (POWER_OF_TEN.matcher(text).matches()) {
            return CellValue.refused(
                    text,
                    ReasonCode.INVALID_VALUE,
                    "is written as a power of ten",
                    "write all digits, for example 1200; in a spreadsheet format the column as a number");
        }
        Matcher number = NUMBER.matcher(text);
        if (!number.matches()) {
            return CellValue.of(text);
        }
        if (",".equals(number.group(2)) && !decimalComma) {
            return CellValue.refused(
                    text,
                    ReasonCode.INVALID_VALUE,
                    "has a comma, which stands between cells here",
                    "write decimals with a point, for example 37.5, or separate the cells by semicolons");
        }
        String decimals = number.group(3) == null ? "" : "." + number.group(3);
        return new CellValue(number.group(1) + decimals, number.group(4), null);
    }
}
