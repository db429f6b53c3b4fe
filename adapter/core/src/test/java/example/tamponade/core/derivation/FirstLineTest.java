package example.tamponade.core.derivation;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.EnumSet;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class FirstLineTest {

    @ParameterizedTest
    @CsvFileSource(resources = "/published/bundle/measures.csv", numLinesToSkip = 1)
    void everyMeasureOfTheBundleIsNeeded(String measure) {
        FirstLineBundle left = Figures.coded(FirstLineBundle.values(), measure);

        assertThat(FirstLineBundle.missing(EnumSet.complementOf(EnumSet.of(left))))
                .containsExactly(left);
    }

    @Test
    void theBundleIsFiveMeasures() {
        assertThat(FirstLineBundle.missing(List.of())).hasSize(5);
        assertThat(FirstLineBundle.missing(List.of(FirstLineBundle.values()))).isEmpty();
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/who-2021/conditions.csv", numLinesToSkip = 1)
    void everyConditionForTamponadeIsNeeded(String condition) {
        TamponadeCondition left = Figures.coded(TamponadeCondition.values(), condition);

        assertThat(TamponadeCondition.notRecorded(EnumSet.complementOf(EnumSet.of(left))))
                .containsExactly(left);
    }

    @Test
    void theConditionsAreThoseOfTheTable() {
        assertThat(TamponadeCondition.notRecorded(List.of())).hasSize(7);
        assertThat(TamponadeCondition.notRecorded(List.of(TamponadeCondition.values())))
                .isEmpty();
    }
}
