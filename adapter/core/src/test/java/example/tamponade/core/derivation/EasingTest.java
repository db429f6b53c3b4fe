package example.tamponade.core.derivation;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Common practice, no source: steps of 50 to 100 mL, an hour of watching, syringes less than 5 min apart are one step. */
class EasingTest {

    private static final Instant BEGIN =
            OffsetDateTime.parse("2026-02-12T13:41:00+05:45").toInstant();
    private static final Duration GAP = Duration.ofMinutes(5);

    // Drains as minute=mL.
    @ParameterizedTest
    @CsvSource({
        "0=80, 0-0:80",
        "0=50 4=50, 0-4:100",
        "4=50 0=50, 0-4:100",
        "0=50 5=50, 0-0:50 5-5:50",
        "0=40 4=30 8=30 60=90, 0-8:100 60-60:90"
    })
    void syringesCloseTogetherAreOneStep(String drains, String steps) {
        assertThat(DrainSteps.of(drains(drains), GAP).stream()
                        .map(it -> minute(it.begin()) + "-" + minute(it.end()) + ":"
                                + it.volumeMl().toPlainString())
                        .collect(Collectors.joining(" ")))
                .isEqualTo(steps);
    }

    @ParameterizedTest
    @CsvSource({
        "0=100, 0, within-step, within-step",
        "0=101, 0, too-fast, too-fast",
        "0=60 30=50, 30, too-fast, too-fast",
        "0=60 30=40, 30, within-step, within-step",
        "0=100 60=100, 60, within-step, within-step",
        "0=100 59=100, 59, too-fast, too-fast",
        "0=50 60=300, 60, rest-at-once, too-fast",
        "0=49 60=300, 60, too-fast, too-fast",
        "0=50 59=300, 59, too-fast, too-fast",
        "0=50 59=50 119=300, 119, rest-at-once, too-fast",
        "0=50 4=50 64=300, 64, rest-at-once, too-fast",
        "0=50 4=50 63=300, 63, too-fast, too-fast",
        "0=80 70=300 140=90, 60, within-step, within-step",
        "0=150 70=80, 0, too-fast, too-fast"
    })
    void theRestMayComeOutAfterAStepThatWasWatched(String drains, long atMin, String pace, String stepsAllTheWay) {
        Instant at = BEGIN.plus(Duration.ofMinutes(atMin));

        assertThat(EasingPace.of(drains(drains), at, limits(false)).code()).isEqualTo(pace);
        assertThat(EasingPace.of(drains(drains), at, limits(true)).code()).isEqualTo(stepsAllTheWay);
    }

    private static EasingPace.Limits limits(boolean stepsAllTheWay) {
        return new EasingPace.Limits(
                new BigDecimal(50), new BigDecimal(100), Duration.ofMinutes(60), GAP, stepsAllTheWay);
    }

    private static List<TimedVolume> drains(String text) {
        return Arrays.stream(text.split(" "))
                .map(it -> it.split("="))
                .map(it ->
                        new TimedVolume(BEGIN.plus(Duration.ofMinutes(Long.parseLong(it[0]))), new BigDecimal(it[1])))
                .toList();
    }

    private static long minute(Instant at) {
        return Duration.between(BEGIN, at).toMinutes();
    }
}
