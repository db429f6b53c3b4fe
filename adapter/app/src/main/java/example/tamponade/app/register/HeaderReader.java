package example.tamponade.app.register;

import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Reads the header of a register: which separator it has, and which columns. */
final class HeaderReader {

    private static final String SEPARATOR_LINE = "sep=";

    // A register has some hundred columns.
    private static final int MOST_COLUMNS = 30_000;

    private final RowScanner rows;
    private final Original.Builder kept = new Original.Builder();
    private final List<Reason> reasons = new ArrayList<>();

    HeaderReader(RowScanner rows) {
        this.rows = rows;
    }

    /** The header; null when the register cannot be read, see {@link #reasons}. */
    @Nullable
    Header read() throws IOException {
        String text = row();
        if (text == null) {
            return null;
        }
        char separator = separator(text);
        if (text.toLowerCase(Locale.ROOT).startsWith(SEPARATOR_LINE)) {
            separator = stated(text);
            // A spreadsheet does not show this line, so that the header is its first row.
            rows.countAgain();
            text = reasons.isEmpty() ? row() : null;
        }
        if (text == null) {
            return null;
        }
        List<String> cells = Csv.cells(text, separator);
        if (cells == null) {
            reasons.add(RowFaults.torn().at("row 1"));
            return null;
        }
        if (cells.size() > MOST_COLUMNS) {
            reasons.add(refusal(
                            "the header has " + cells.size() + " columns; at most " + MOST_COLUMNS + " are read",
                            "leave out the columns that a register does not have")
                    .at("row 1"));
            return null;
        }
        List<@Nullable Column> columns = columns(cells);
        return reasons.isEmpty() ? new Header(kept.build(), separator, columns) : null;
    }

    /** Why the register cannot be read. */
    List<Reason> reasons() {
        return reasons;
    }

    /** All that was read so far. */
    Original original() throws IOException {
        return kept.build();
    }

    private @Nullable String row() throws IOException {
        Row row = rows.next(Csv.SEPARATORS);
        if (row == null) {
            reasons.add(RowFaults.emptyRegister());
            return null;
        }
        kept.add(row.original());
        Reason fault = RowFaults.ofHeader(row);
        if (fault != null) {
            reasons.add(fault.at(row.place()));
            return null;
        }
        return row.text();
    }

    // No name of a column has a separator in it.
    private static char separator(String header) {
        char most = ',';
        for (char separator : Csv.SEPARATORS.toCharArray()) {
            most = count(header, separator) > count(header, most) ? separator : most;
        }
        return most;
    }

    private static long count(String text, char character) {
        return text.chars().filter(it -> it == character).count();
    }

    private char stated(String line) {
        char separator = line.length() > SEPARATOR_LINE.length() ? line.charAt(SEPARATOR_LINE.length()) : '\n';
        if (Csv.SEPARATORS.indexOf(separator) < 0) {
            reasons.add(refusal(
                            "the line '" + line.strip() + "' names no separator that is known",
                            "separate the cells by commas, semicolons or tabs")
                    .at("the line before the header"));
        }
        return separator;
    }

    private List<@Nullable Column> columns(List<String> names) {
        List<@Nullable Column> columns = new ArrayList<>();
        Set<Column> seen = new HashSet<>();
        for (String name : names) {
            Column column = Column.named(name);
            columns.add(column);
            if (column == null && !name.isEmpty()) {
                // Beyond the most that is told only their number counts.
                boolean told = reasons.size() < Reason.MOST;
                refuse(told ? ColumnNames.unknown(name) : reasons.get(0), columns.size());
            } else if (column != null && !seen.add(column)) {
                refuse(
                        refusal(
                                "the column '" + column.name() + "' is there twice",
                                "give each column once; the elements of a list stand in one cell, with | between them"),
                        columns.size());
            }
        }
        if (seen.isEmpty() && reasons.isEmpty()) {
            reasons.add(refusal("there is no header", "give the names of the columns in the first row")
                    .at("row 1"));
        }
        return Collections.unmodifiableList(columns);
    }

    private void refuse(Reason reason, int column) {
        reasons.add(reason.at("row 1, column " + column));
    }

    private static Reason refusal(String message, String remedy) {
        return new Reason(ReasonCode.INVALID_VALUE, "", message, remedy);
    }
}
