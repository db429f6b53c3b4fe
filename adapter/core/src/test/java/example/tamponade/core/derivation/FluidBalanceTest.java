package example.tamponade.core.derivation;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.Test;

class FluidBalanceTest {

    // 1000 mL of crystalloid and 450 mL of red cells against 1528.0 mL of blood and 109 mL of urine. Arithmetic.
    @Test
    void subtractsWhatWentOut() {
        FactValue.Amount balance = FluidBalance.of(
                List.of(new BigDecimal(1000), new BigDecimal(450)),
                List.of(new BigDecimal("1528.0"), new BigDecimal(109)));

        assertThat(balance.rounded()).isEqualTo("-187");
    }
}
