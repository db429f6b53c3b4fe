package example.tamponade.app;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactKind;
import example.tamponade.core.derivation.FactValue;
import java.math.BigDecimal;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/** The samples' results were computed by another program, in another language, from the same lines. */
class SampleResultsTest {

    @ParameterizedTest
    @ValueSource(strings = {"settled", "referred", "bled-again", "warnings", "messy"})
    void theCaseComesOutAsComputedApart(String name) {
        JsonNode expected = Samples.expected(name);
        CaseFile file = SampleCases.file(name);

        assertThat(series(file, FactKind.CUMULATIVE_BLOOD_LOSS))
                .isEqualTo(series(expected.path("bloodLoss"), "cumulativeBloodLossMl"));
        assertThat(series(file, FactKind.SHOCK_INDEX)).isEqualTo(series(expected.path("shockIndex"), "shockIndex"));
        assertThat(series(file, FactKind.MEAN_ARTERIAL_PRESSURE))
                .isEqualTo(series(expected.path("meanArterialPressure"), "meanArterialPressureMmHg"));
        assertThat(series(file, FactKind.PULSE_PRESSURE))
                .isEqualTo(series(expected.path("pulsePressure"), "pulsePressureMmHg"));
        assertThat(series(file, FactKind.TAMPONADE_CHAMBER_VOLUME)).isEqualTo(chamber(expected, "tamponade"));
        assertThat(series(file, FactKind.RETENTION_CHAMBER_VOLUME)).isEqualTo(chamber(expected, "retention"));
        assertThat(minutesInSitu(file)).isEqualTo(minutesInSitu(expected));
    }

    @ParameterizedTest
    @ValueSource(strings = {"settled", "referred", "bled-again", "warnings", "messy"})
    void bleedingIsControlledWhenAndWithWhatWasComputedApart(String name) {
        List<String> control = new ArrayList<>();
        List<String> volume = new ArrayList<>();
        Samples.expected(name).path("tamponades").forEach(it -> {
            if (it.path("minutesToControl").isNumber()) {
                control.add(plain(it.path("minutesToControl").decimalValue()));
                volume.add(plain(new BigDecimal(it.path("volumeAtControlMl").asString())));
            }
        });

        assertThat(values(SampleCases.file(name), FactKind.INSERTION_TO_CONTROL))
                .isEqualTo(control);
        assertThat(values(SampleCases.file(name), FactKind.VOLUME_AT_CONTROL)).isEqualTo(volume);
    }

    private static List<String> values(CaseFile file, FactKind kind) {
        return file.facts().stream()
                .filter(it -> it instanceof DerivedValue value && value.kind() == kind)
                .map(it -> plain(((DerivedValue) it).value()))
                .toList();
    }

    private static List<String> chamber(JsonNode expected, String chamber) {
        List<String> series = new ArrayList<>();
        expected.path("tamponades")
                .forEach(it -> series.addAll(series(it.path("balloonVolume").path(chamber), "volumeMl")));
        return series;
    }

    private static List<String> minutesInSitu(CaseFile file) {
        OffsetDateTime end = file.entries().stream()
                .map(it -> it.event().occurredAt())
                .max(OffsetDateTime::compareTo)
                .orElseThrow();
        Map<UUID, String> latest = new LinkedHashMap<>();
        file.advanceTo(end).after().facts().stream()
                .filter(it -> it instanceof DerivedValue value && value.kind() == FactKind.TIME_IN_SITU)
                .map(DerivedValue.class::cast)
                .forEach(it -> latest.put(it.tamponade(), plain(it.value())));
        return List.copyOf(latest.values());
    }

    private static List<String> minutesInSitu(JsonNode expected) {
        List<String> minutes = new ArrayList<>();
        expected.path("tamponades")
                .forEach(it -> minutes.add(plain(it.path("minutesInSitu").decimalValue())));
        return minutes;
    }

    private static List<String> series(CaseFile file, FactKind kind) {
        List<String> series = new ArrayList<>();
        file.facts().stream()
                .filter(DerivedValue.class::isInstance)
                .map(DerivedValue.class::cast)
                .filter(it -> it.kind() == kind)
                .forEach(it -> series.add(it.at().toInstant() + " " + plain(it.value())));
        return series;
    }

    private static String plain(FactValue value) {
        return value instanceof FactValue.Amount amount ? plain(amount.rounded()) : "none";
    }

    private static List<String> series(JsonNode expected, String property) {
        List<String> series = new ArrayList<>();
        expected.forEach(it -> series.add(OffsetDateTime.parse(
                                it.path("occurredAt").asString())
                        .toInstant() + " "
                + (it.path(property).isNumber() ? plain(it.path(property).decimalValue()) : "none")));
        return series;
    }

    private static String plain(BigDecimal value) {
        return value.stripTrailingZeros().toPlainString();
    }
}
