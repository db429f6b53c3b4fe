package example.tamponade.app.register;

import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** What a spreadsheet writes in place of what was entered. Common practice, no source. */
final class SpreadsheetFaults {

    private static final int LONGEST = 24;

    // #REF!, #NAME?, #DIV/0! and, in German, French or Spanish, #BEZUG!, #NOM?, #¡REF!; #N/A, #NV, #N/D; a column too
    // narrow.
    private static final Pattern ERROR = Pattern.compile("#(¡?\\p{Lu}[\\p{Lu}/0 ]*[!?]|N/A|NV|N/D|#+)");

    private static final Pattern SHORTENED = Pattern.compile("[+-]?\\d([.,]\\d+)?E[+-]\\d{2,3}");

    private SpreadsheetFaults() {}

    /** The reason against a cell; null when it holds what was entered. */
    static @Nullable Reason of(String text) {
        if (text.length() > LONGEST) {
            return null;
        }
        if (ERROR.matcher(text).matches()) {
            return new Reason(
                    ReasonCode.INVALID_VALUE,
                    "",
                    "'" + text + "' is an error of the spreadsheet, not a value",
                    "correct the formula in the spreadsheet, or write the value itself");
        }
        if (SHORTENED.matcher(text).matches()) {
            return new Reason(
                    ReasonCode.INVALID_VALUE,
                    "",
                    "'" + text + "' was shortened by the spreadsheet",
                    "format the column as text and enter the value again with all its digits");
        }
        return null;
    }
}
