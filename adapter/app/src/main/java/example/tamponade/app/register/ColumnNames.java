package example.tamponade.app.register;

import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import java.util.Locale;
import java.util.stream.Collectors;

/** What to say of a column whose name is not known. */
final class ColumnNames {

    private static final int MAX_SHOWN = 60;

    private ColumnNames() {}

    /** The refusal, with the known names and those that are like it. */
    static Reason unknown(String name) {
        String near = Column.all().stream()
                .map(Column::name)
                .filter(it -> alike(letters(it), letters(name)))
                .collect(Collectors.joining(" or "));
        String known = Column.all().stream().map(Column::name).collect(Collectors.joining(", "));
        return new Reason(
                ReasonCode.UNKNOWN_PROPERTY,
                "",
                "no column is called '" + (name.length() > MAX_SHOWN ? name.substring(0, MAX_SHOWN) + "…" : name) + "'",
                (near.isEmpty() ? "rename or remove the column" : "call it " + near + ", or remove it")
                        + "; the columns are " + known);
    }

    private static boolean alike(String known, String name) {
        return name.length() > 2 && (known.contains(name) || name.contains(known) && known.length() > 3);
    }

    private static String letters(String name) {
        return name.toLowerCase(Locale.ROOT).replaceAll("[^a-z]", "");
    }
}
