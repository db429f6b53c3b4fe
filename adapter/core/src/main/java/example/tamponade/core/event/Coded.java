package example.tamponade.core.event;

import java.util.Locale;

/** What the wire and the code systems call an enum constant: its name in lower case, words joined by hyphens. */
public interface Coded {

    /** The constant's Java name; every enum has it. */
    String name();

    /** The code, for example {@code running-total}; the same in JSON events and in the code systems. */
    default String code() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
