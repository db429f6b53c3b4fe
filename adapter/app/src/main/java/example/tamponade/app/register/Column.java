package example.tamponade.app.register;

import example.tamponade.app.intake.EventProperties;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A column that a register can have.
 *
 * @param name its name in the header, for example {@code mother.name}
 * @param path the property that its cells state; null when they state it together with other cells
 */
record Column(String name, @Nullable String path) {

    static final Column ENTRY = new Column("entry", null);
    static final Column DATE = new Column("date", null);
    static final Column TIME = new Column("time", null);
    static final Column RECORDED_DATE = new Column("recordedDate", null);
    static final Column RECORDED_TIME = new Column("recordedTime", null);

    private static final Map<String, Column> KNOWN = known();

    /** The column of that name, in whatever case; null when there is none. */
    static @Nullable Column named(String name) {
        return KNOWN.get(key(name));
    }

    /** The column that states that property. */
    static Column of(String path) {
        String name = path.startsWith("/data/")
                ? path.substring("/data/".length()).replace('/', '.')
                : path.substring(1).replace("/id", "Id").replace("/role", "Role");
        return new Column(name, path);
    }

    /** Every column. */
    static Collection<Column> all() {
        return KNOWN.values();
    }

    private static Map<String, Column> known() {
        Map<String, Column> known = new LinkedHashMap<>();
        List.of(ENTRY, DATE, TIME, RECORDED_DATE, RECORDED_TIME).forEach(it -> known.put(key(it.name), it));
        EventProperties.paths().stream().map(Column::of).forEach(it -> known.put(key(it.name), it));
        return known;
    }

    private static String key(String name) {
        return name.strip().toLowerCase(Locale.ROOT);
    }
}
