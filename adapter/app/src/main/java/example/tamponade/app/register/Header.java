package example.tamponade.app.register;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The header of a register.
 *
 * @param bytes all that comes before the first row, as it came
 * @param separator what stands between cells
 * @param columns the columns in their order; null for a column without a name
 */
@SuppressWarnings("ArrayRecordComponent") // Read once and never compared.
record Header(byte[] bytes, char separator, List<@Nullable Column> columns) {

    /** Whether a comma can stand for the decimal point: not where it stands between cells. */
    boolean decimalComma() {
        return separator != ',';
    }

    /** The bytes of the header and of the row, which are a register by themselves. */
    byte[] with(byte[] row) {
        byte[] both = new byte[bytes.length + row.length];
        System.arraycopy(bytes, 0, both, 0, bytes.length);
        System.arraycopy(row, 0, both, bytes.length, row.length);
        return both;
    }
}
