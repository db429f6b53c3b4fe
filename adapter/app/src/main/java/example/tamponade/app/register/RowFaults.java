package example.tamponade.app.register;

import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What can be wrong with a row before its cells are read. */
final class RowFaults {

    private RowFaults() {}

    /** The reason against a header; null when its cells can be read. */
    static @Nullable Reason ofHeader(Row row) {
        byte[] bytes = row.original().beginning(EventReader.MAX_BYTES);
        boolean marked = bytes.length > 1 && (bytes[0] & 0xFF) + (bytes[1] & 0xFF) == 0xFE + 0xFF && bytes[0] < 0;
        for (byte b : bytes) {
            if (marked || b == 0) {
                return encoding("the file is in UTF-16, not in UTF-8");
            }
        }
        Reason fault = of(row);
        return fault == null && row.text() == null ? notUtf8() : fault;
    }

    /** The reason against a row as it was cut out; null when there is none. */
    static @Nullable Reason of(Row row) {
        if (row.tooLong()) {
            return new Reason(
                    ReasonCode.TOO_LONG,
                    "",
                    "the row has " + row.original().length() + " bytes; at most " + EventReader.MAX_BYTES
                            + " are taken",
                    "give each event a row of its own; a row has a few hundred bytes");
        }
        return row.torn() ? torn() : null;
    }

    /** The reason against a row whose quotes are not in order. */
    static Reason torn() {
        return new Reason(
                ReasonCode.INVALID_VALUE,
                "",
                "a quoted cell is not closed, or goes on behind its closing quote",
                "put a quote before and behind the whole cell, and write each quote within it twice (\"\")");
    }

    /**
     * The reason against the number of cells; null when the row has a cell for each column. Between commas the number must
     * be right (RFC 4180, section 2, rule 4), as a decimal comma would shift every cell behind it; otherwise cells without
     * a value may be left out or left over.
     */
    static @Nullable Reason ofCells(List<String> cells, Header header) {
        List<@Nullable Column> columns = header.columns();
        if (!header.decimalComma() && cells.size() != columns.size()) {
            return new Reason(
                    ReasonCode.INVALID_VALUE,
                    "",
                    "the row has " + cells.size() + " cells, the header " + columns.size(),
                    "give the row a cell for each column, also for an empty one, and write decimals with a point");
        }
        for (int i = 0; i < cells.size(); i++) {
            if (!cells.get(i).isEmpty() && (i >= columns.size() || columns.get(i) == null)) {
                return new Reason(
                        ReasonCode.INVALID_VALUE,
                        "",
                        "cell " + (i + 1) + " stands under no name of a column",
                        "name the column in the header, or empty the cell");
            }
        }
        return null;
    }

    /**
     * Whether a line within a quoted cell looks like a row itself: it has as many separators as a row or, where rows may be
     * shorter, half as many.
     */
    static boolean holdsRows(String row, Header header) {
        int separators = header.columns().size() - 1;
        int enough = Math.max(1, header.decimalComma() ? separators / 2 : separators);
        return row.lines()
                .skip(1)
                .anyMatch(it -> it.chars().filter(c -> c == header.separator()).count() >= enough);
    }

    static Reason notUtf8() {
        return encoding("the row is not in UTF-8");
    }

    static Reason emptyRegister() {
        return new Reason(
                ReasonCode.EMPTY_INPUT,
                "",
                "the register holds no row",
                "give a header and a row for each event; check that it was written out fully");
    }

    private static Reason encoding(String message) {
        return new Reason(
                ReasonCode.WRONG_ENCODING,
                "",
                message,
                "save the register as CSV in UTF-8, with or without byte order mark");
    }
}
