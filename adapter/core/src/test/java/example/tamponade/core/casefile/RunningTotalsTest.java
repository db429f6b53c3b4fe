package example.tamponade.core.casefile;

import static example.tamponade.core.casefile.Bedside.drained;
import static example.tamponade.core.casefile.Bedside.drape;
import static example.tamponade.core.casefile.Bedside.event;
import static example.tamponade.core.casefile.Bedside.filled;
import static example.tamponade.core.casefile.Bedside.inserted;
import static example.tamponade.core.casefile.Bedside.lost;
import static example.tamponade.core.casefile.Bedside.weighed;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.FiredSign;
import example.tamponade.core.derivation.HaemorrhageCriterion;
import example.tamponade.core.derivation.HaemorrhageGrade;
import example.tamponade.core.derivation.Sign;
import example.tamponade.core.derivation.SignRule;
import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class RunningTotalsTest {

    @ParameterizedTest
    @CsvFileSource(resources = "/published/blood-loss/running-totals.csv", numLinesToSkip = 1)
    void addsReadingsOfEveryKind(
            String row,
            String readings,
            String totals,
            @Nullable Integer from300,
            @Nullable Integer from500,
            @Nullable Integer from1000) {
        List<BigDecimal> running =
                amounts(FactKind.CUMULATIVE_BLOOD_LOSS, events(readings, RunningTotalsTest::reading));

        assertThat(line(running)).isEqualTo(totals);
        assertThat(first(running, it -> criterion(it) != HaemorrhageCriterion.NOT_MET))
                .isEqualTo(from300);
        assertThat(first(running, it -> grade(it) != HaemorrhageGrade.NONE)).isEqualTo(from500);
        assertThat(first(running, it -> grade(it) == HaemorrhageGrade.SEVERE)).isEqualTo(from1000);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/balloon/volume-in-situ.csv", numLinesToSkip = 1)
    void followsWhatIsInTheChamber(String row, String steps, String volumes) {
        List<EventEnvelope> events = new ArrayList<>(events(steps, RunningTotalsTest::step));
        events.add(0, event("in", 0, inserted()));

        assertThat(line(amounts(FactKind.TAMPONADE_CHAMBER_VOLUME, events))).isEqualTo(volumes);
    }

    private static BedsideEvent reading(String text) {
        String[] parts = text.split("[/-]");
        if (parts.length == 1) {
            return lost(Integer.parseInt(text));
        }
        int first = Integer.parseInt(parts[0]);
        int second = Integer.parseInt(parts[1]);
        return text.contains("/") ? weighed(first, second) : drape("main", first, second, false);
    }

    private static BedsideEvent step(String text) {
        int volumeMl = Integer.parseInt(text.substring(1));
        return text.startsWith("+") ? filled(volumeMl) : drained(volumeMl);
    }

    private static List<EventEnvelope> events(String text, Function<String, BedsideEvent> notation) {
        List<EventEnvelope> events = new ArrayList<>();
        for (String word : text.split(" ")) {
            int minute = events.size() + 1;
            events.add(event("e" + minute, minute, notation.apply(word)));
        }
        return events;
    }

    private static List<BigDecimal> amounts(FactKind kind, List<EventEnvelope> events) {
        return CaseFile.of(Bedside.CASE, CareProtocol.standard(), events).facts().stream()
                .filter(DerivedValue.class::isInstance)
                .map(DerivedValue.class::cast)
                .filter(it -> it.kind() == kind)
                .map(it -> ((FactValue.Amount) it.value()).rounded())
                .toList();
    }

    private static HaemorrhageGrade grade(BigDecimal totalMl) {
        return HaemorrhageGrade.of(totalMl, new BigDecimal(500), new BigDecimal(1000));
    }

    private static HaemorrhageCriterion criterion(BigDecimal totalMl) {
        FiredSign sign = new FiredSign(new SignRule.Seen(Sign.PRESSURE_UNRECORDABLE), null);
        return HaemorrhageCriterion.of(totalMl, List.of(sign), new BigDecimal(300), new BigDecimal(500));
    }

    private static @Nullable Integer first(List<BigDecimal> running, Predicate<BigDecimal> reached) {
        for (int i = 0; i < running.size(); i++) {
            if (reached.test(running.get(i))) {
                return i + 1;
            }
        }
        return null;
    }

    private static String line(List<BigDecimal> values) {
        return values.stream().map(BigDecimal::toPlainString).collect(Collectors.joining(" "));
    }
}
