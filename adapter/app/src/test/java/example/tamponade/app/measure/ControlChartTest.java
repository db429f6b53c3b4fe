package example.tamponade.app.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ControlChartTest {

    // NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.3.2: shares of defective chips on 30 wafers of 50 each;
    // centre
    // 0.2313, limits 0.0524 and 0.4102, wafers 15 and 23 beyond them (from memory).
    private static final List<Double> WAFERS = List.of(
            .24, .30, .16, .20, .08, .14, .32, .18, .28, .20, .10, .12, .34, .24, .44, .16, .20, .10, .26, .22, .40,
            .36, .48, .30, .18, .24, .14, .26, .18, .12);

    @Test
    void drawsTheHandbooksExample() {
        List<ControlChart.Count> counts = new ArrayList<>();
        WAFERS.forEach(it ->
                counts.add(new ControlChart.Count("wafer " + (counts.size() + 1), 50, (int) Math.round(it * 50))));
        ControlChart chart = ControlChart.of(counts, ControlChart.CONTROL);

        assertThat(chart.centre()).isCloseTo(.2313, within(.00005));
        assertThat(chart.points()).allSatisfy(it -> {
            assertThat(it.lower()).isCloseTo(.0524, within(.00005));
            assertThat(it.upper()).isCloseTo(.4102, within(.00005));
        });
        assertThat(chart.points().stream()
                        .filter(it -> it.signal() == ControlChart.Signal.BEYOND)
                        .map(it -> it.count().label()))
                .containsExactly("wafer 15", "wafer 23");
    }

    // Western Electric: eight in a row on one side of the centre.
    @ParameterizedTest
    @CsvSource({"7, 0", "8, 1", "10, 3"})
    void eightInARowOnOneSideAreASignal(int inRow, int signals) {
        List<ControlChart.Count> counts = new ArrayList<>();
        IntStream.range(0, inRow).forEach(it -> counts.add(new ControlChart.Count("high " + it, 100, 55)));
        IntStream.range(0, 12)
                .forEach(it -> counts.add(new ControlChart.Count("on " + it, 100, it % 2 == 0 ? 45 : 55)));

        assertThat(ControlChart.of(counts, ControlChart.CONTROL).points().stream()
                        .filter(it -> it.signal() == ControlChart.Signal.RUN))
                .hasSize(signals);
    }

    // Of a hundred with a share of a half 95 % lie between 0.402 and 0.598: 0.5 and 1.96 times the standard error 0.05.
    @Test
    void theFunnelIsNarrowerWhereThereAreMore() {
        ControlChart funnel = ControlChart.of(
                List.of(
                        new ControlChart.Count("few", 100, 40),
                        new ControlChart.Count("many", 400, 210),
                        new ControlChart.Count("none", 0, 0)),
                ControlChart.FUNNEL_95);

        assertThat(funnel.centre()).isEqualTo(.5);
        assertThat(funnel.points().get(0).lower()).isCloseTo(.402, within(1e-9));
        assertThat(funnel.points().get(0).upper()).isCloseTo(.598, within(1e-9));
        assertThat(funnel.points().get(0).signal()).isEqualTo(ControlChart.Signal.BEYOND);
        assertThat(funnel.points().get(1).lower()).isCloseTo(.451, within(1e-9));
        assertThat(funnel.points().get(2).share()).isNaN();
    }
}
