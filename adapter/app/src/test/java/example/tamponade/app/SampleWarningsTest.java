package example.tamponade.app;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.casefile.Flag;
import example.tamponade.core.casefile.FlagKind;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

class SampleWarningsTest {

    @Test
    void everyWarningBeginsAndEndsSomewhereInTheSamples() {
        Set<FlagKind> ended = Samples.CASES.stream()
                .flatMap(it -> SampleCases.file(it).facts().stream())
                .filter(it -> it instanceof Flag flag && flag.end() != null)
                .map(it -> ((Flag) it).kind())
                .collect(Collectors.toCollection(() -> EnumSet.noneOf(FlagKind.class)));

        assertThat(ended).containsExactlyInAnyOrderElementsOf(Arrays.asList(FlagKind.values()));
    }
}
