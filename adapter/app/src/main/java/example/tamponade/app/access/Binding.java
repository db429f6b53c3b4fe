package example.tamponade.app.access;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/** Values that a condition in SQL names. */
public final class Binding {

    private final Map<String, Object> values = new LinkedHashMap<>();

    /** Names a value. */
    public String bind(Object value) {
        String name = "seen" + values.size();
        values.put(name, value);
        return ":" + name;
    }

    /** The values by their names. */
    public Map<String, Object> values() {
        return Collections.unmodifiableMap(values);
    }
}
