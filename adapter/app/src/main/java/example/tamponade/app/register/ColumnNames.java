package example.tamponade.app.register;

import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import java.util.Locale;
import java.util.stream.Collectors;

/** What to say of a column whose name is not known. */
final class ColumnNames {

    private static final int MAX_SHOWN = 60;

    // Said of every name alike: a header of many thousands must not be answered by as many lists of all columns.
    private static final String KNOWN = Column.all().stream().map(Column::name).collect(Collectors.joining(", "));
    private static final String OTHERWISE = "rename or remove the column; the columns are " + KNOWN;

    private ColumnNames() {}

    /** The refusal, with the known names and those that are like it. */
    static Reason unknown(String name) {
        String near = Column.all().stream()
                .map(Column::name)
                .filter(it -> alike(letters(it), letters(name)))
                .collect(Collectors.joining(" or "));
        return new Reason(
                ReasonCode.UNKNOWN_PROPERTY,
                "",
                "no column is called '" + (name.length() > MAX_SHOWN ? name.substring(0, MAX_SHOWN) + "…" : name) + "'",
                near.isEmpty() ? OTHERWISE : "call it " + near + ", or remove it; the columns are " + KNOWN);
    }

    private static boolean alike(String known, String name) {
        return name.length() > 2 && (known.contains(name) || name.contains(known) && known.length() > 3);
    }

    private static String letters(String name) {
        return name.toLowerCase(Locale.ROOT).replaceAll("[^a-z]", "");
    }
}
