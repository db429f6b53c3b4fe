package example.tamponade.app.register;

import example.tamponade.app.intake.Original;
import java.io.IOException;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The header of a register.
 *
 * @param original all that comes before the first row, as it came
 * @param separator what stands between cells
 * @param columns the columns in their order; null for a column without a name
 */
record Header(Original original, char separator, List<@Nullable Column> columns) {

    /** Whether a comma can stand for the decimal point: not where it stands between cells. */
    boolean decimalComma() {
        return separator != ',';
    }

    /** The bytes of the header and of the row, which are a register by themselves. */
    Original with(Original row) throws IOException {
        Original.Builder both = new Original.Builder();
        both.add(original);
        both.add(row);
        return both.build();
    }
}
