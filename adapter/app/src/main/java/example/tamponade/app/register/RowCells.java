package example.tamponade.app.register;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The cells of a row that hold something, by their columns. */
final class RowCells {

    private final String place;
    private final boolean decimalComma;
    private final Map<Column, String> texts = new LinkedHashMap<>();

    /** The cells of a row at that place; none holds something under no name. */
    RowCells(String place, Header header, List<String> cells) {
        this.place = place;
        this.decimalComma = header.decimalComma();
        List<Column> columns = header.columns();
        for (int i = 0; i < Math.min(cells.size(), columns.size()); i++) {
            if (!cells.get(i).isEmpty()) {
                texts.put(columns.get(i), cells.get(i));
            }
        }
    }

    /** Where the row stands. */
    String place() {
        return place;
    }

    /** Where the cell of a column stands. */
    String place(Column column) {
        return place + ", column " + column.name();
    }

    /** Whether decimals can be written with a comma. */
    boolean decimalComma() {
        return decimalComma;
    }

    /** The text of the cell; empty when it holds nothing. */
    String text(Column column) {
        return texts.getOrDefault(column, "");
    }

    /** The text of the cell that states that property; empty when it holds nothing. */
    String text(String path) {
        return text(Column.of(path));
    }

    /** Every cell that holds something. */
    Map<Column, String> texts() {
        return texts;
    }
}
