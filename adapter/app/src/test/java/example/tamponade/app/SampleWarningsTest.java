package example.tamponade.app;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.casefile.Flag;
import example.tamponade.core.casefile.FlagKind;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class SampleWarningsTest {

    // What was lost stays lost, so that these two end with no reading and with no closing of the case.
    private static final Set<FlagKind> NEVER_ENDED =
            EnumSet.of(FlagKind.BLOOD_LOSS_THRESHOLD, FlagKind.HAEMORRHAGE_CRITERION);

    @Test
    void everyWarningBeginsSomewhereInTheSamplesAndEndsIfItCan() {
        Set<FlagKind> begun = kinds(false);
        Set<FlagKind> ended = kinds(true);

        assertThat(begun).containsExactlyInAnyOrderElementsOf(Arrays.asList(FlagKind.values()));
        assertThat(ended).isEqualTo(EnumSet.complementOf(EnumSet.copyOf(NEVER_ENDED)));
    }

    private static Set<FlagKind> kinds(boolean ended) {
        return Samples.CASES.stream()
                .flatMap(it -> Stream.of(SampleCases.file(it), SampleCases.facility(it)))
                .flatMap(it -> it.facts().stream())
                .filter(it -> it instanceof Flag flag && (!ended || flag.end() != null))
                .map(it -> ((Flag) it).kind())
                .collect(Collectors.toCollection(() -> EnumSet.noneOf(FlagKind.class)));
    }
}
