package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.Arrays;

/** Turns figures of a table into what the formulas take, and what they give into figures. */
final class Figures {

    private Figures() {}

    static FactValue.Amount amount(FactValue value) {
        return (FactValue.Amount) value;
    }

    static Duration minutes(BigDecimal minutes) {
        return Duration.ofSeconds(minutes.multiply(BigDecimal.valueOf(60)).longValueExact());
    }

    static <T extends Coded> T coded(T[] constants, String code) {
        return Arrays.stream(constants)
                .filter(it -> it.code().equals(code))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException(code));
    }
}
