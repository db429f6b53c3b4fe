package example.tamponade.core.derivation;

import java.math.BigDecimal;

/** One rule of a published set: it fires when a reading is beyond a limit, or when a sign is seen. */
public sealed interface SignRule {

    /** What it looks at. */
    Sign sign();

    /** Whether it fires; never when the sign was neither measured nor seen. */
    boolean firedBy(Readings readings);

    /** The rule in words, for example {@code systolic < 90 mm[Hg]}. */
    String text();

    /**
     * A measured sign stands so to a limit.
     *
     * @param sign what is measured
     * @param comparison how the reading must stand to the limit
     * @param limit the limit in the sign's unit, from the care protocol
     */
    record Limit(Sign sign, Comparison comparison, BigDecimal limit) implements SignRule {

        public Limit {
            if (!sign.measured()) {
                throw new IllegalArgumentException(sign + " is seen, not measured; it takes no limit");
            }
        }

        @Override
        public boolean firedBy(Readings readings) {
            BigDecimal value = readings.values().get(sign);
            return value != null && comparison.holds(value, limit);
        }

        @Override
        public String text() {
            return sign.code() + " " + comparison.symbol() + " " + limit.toPlainString() + " " + sign.unit();
        }
    }

    /**
     * A sign is seen.
     *
     * @param sign what is seen
     */
    record Seen(Sign sign) implements SignRule {

        public Seen {
            if (sign.measured()) {
                throw new IllegalArgumentException(sign + " is measured; it needs a limit");
            }
        }

        @Override
        public boolean firedBy(Readings readings) {
            return readings.seen().contains(sign);
        }

        @Override
        public String text() {
            return sign.code();
        }
    }
}
