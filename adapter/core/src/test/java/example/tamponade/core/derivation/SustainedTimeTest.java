package example.tamponade.core.derivation;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;

class SustainedTimeTest {

    @Test
    void nothingObservedDidNotLast() {
        assertThat(SustainedTime.of(List.of()).rounded()).isEqualTo("0");
    }

    @Test
    void oneAbnormalObservationDidNotLast() {
        assertThat(SustainedTime.of(List.of(new SustainedTime.Observed(Instant.EPOCH, true)))
                        .rounded())
                .isEqualTo("0");
    }
}
