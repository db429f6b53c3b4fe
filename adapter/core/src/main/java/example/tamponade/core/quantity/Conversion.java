package example.tamponade.core.quantity;

import java.math.BigDecimal;

/** What became of an amount that was to be given in another unit. */
public sealed interface Conversion {

    /**
     * The amount in the wanted unit.
     *
     * @param value the amount, without trailing zeros
     */
    record Converted(BigDecimal value) implements Conversion {}

    /**
     * The amount could not be converted.
     *
     * @param reason why, in words for the sender
     */
    record Refused(String reason) implements Conversion {}
}
