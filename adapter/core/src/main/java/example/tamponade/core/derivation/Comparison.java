package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.math.BigDecimal;

/** How a reading must stand to a limit for a rule to fire. */
public enum Comparison implements Coded {
    /** Strictly less. */
    BELOW("<"),
    /** Less or the same. */
    AT_MOST("<="),
    /** The same or more. */
    AT_LEAST(">="),
    /** Strictly more. */
    ABOVE(">");

    private final String symbol;

    Comparison(String symbol) {
        this.symbol = symbol;
    }

    /** How it is written, for example {@code <=}. */
    public String symbol() {
        return symbol;
    }

    /** Whether an unrounded value stands so to the limit. */
    public boolean holds(BigDecimal value, BigDecimal limit) {
        int order = value.compareTo(limit);
        return switch (this) {
            case BELOW -> order < 0;
            case AT_MOST -> order <= 0;
            case AT_LEAST -> order >= 0;
            case ABOVE -> order > 0;
        };
    }
}
