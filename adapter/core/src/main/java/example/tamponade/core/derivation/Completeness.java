package example.tamponade.core.derivation;

import java.math.BigDecimal;

/**
 * Completeness of a schedule = 100 x checks done / checks due, %, shown with 1 decimal. Checks done late count as done; a
 * check that is not due yet counts as neither.
 *
 * <p>Source: arithmetic.
 */
public final class Completeness {

    private Completeness() {}

    /**
     * Divides what was done by what was due.
     *
     * @param done checks done, in time or late
     * @param due checks due so far; none gives no value
     */
    public static FactValue of(int done, int due) {
        return Quotient.percent(BigDecimal.valueOf(done), BigDecimal.valueOf(due));
    }
}
