package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.OffsetDateTime;
import java.util.List;

/** What a formula or a rule gives: a value, or the reason why there is none. */
public sealed interface FactValue {

    /**
     * An amount.
     *
     * @param value unrounded; thresholds compare this
     * @param unit UCUM unit, for example {@code mL}
     * @param scale decimals to show, for example 2 for a shock index
     */
    record Amount(BigDecimal value, String unit, int scale) implements FactValue {

        /** The amount rounded half up to its scale: what is shown and sent. */
        public BigDecimal rounded() {
            return value.setScale(scale, RoundingMode.HALF_UP);
        }
    }

    /**
     * One of a list of answers, as the phase of a tamponade.
     *
     * @param answer the answer; its code is in the code system of the fact's kind
     */
    record Answer(Coded answer) implements FactValue {}

    /**
     * A point in time, as when a check is due.
     *
     * @param time the time, with the offset of the record it comes from
     */
    record Time(OffsetDateTime time) implements FactValue {}

    /**
     * Several things that were done, present or recorded, or not.
     *
     * @param items each thing, in the order to show
     */
    record Checklist(List<Item> items) implements FactValue {

        public Checklist {
            items = List.copyOf(items);
        }
    }

    /**
     * One line of a checklist.
     *
     * @param code what
     * @param done whether it was done, present or recorded
     */
    record Item(Coded code, boolean done) {}

    /**
     * No value could be derived.
     *
     * @param reason why
     */
    record Missing(AbsentReason reason) implements FactValue {}
}
