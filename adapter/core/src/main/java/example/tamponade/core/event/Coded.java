package example.tamponade.core.event;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** What the wire and the code systems call an enum constant: its name in lower case, words joined by hyphens. */
public interface Coded {

    /** The constant's Java name; every enum has it. */
    String name();

    /** The code, for example {@code running-total}; the same in JSON events and in the code systems. */
    default String code() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /**
     * The constant with that code.
     *
     * @throws IllegalArgumentException when there is none; its message names those there are
     */
    static <T extends Enum<T> & Coded> T of(Class<T> type, String code) {
        return Arrays.stream(type.getEnumConstants())
                .filter(it -> it.code().equals(code))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no '" + code + "' here; use one of "
                        + Arrays.stream(type.getEnumConstants())
                                .map(Coded::code)
                                .collect(Collectors.joining(", "))));
    }
}
