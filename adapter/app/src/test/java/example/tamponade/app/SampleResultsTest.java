package example.tamponade.app;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.intake.EventLine;
import example.tamponade.app.intake.EventLines;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Intake;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactKind;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/** The samples' results were computed by another program, in another language, from the same lines. */
class SampleResultsTest {

    private static final CareProtocol PROTOCOL = CareProtocol.standard();

    @ParameterizedTest
    @ValueSource(strings = {"settled", "referred", "bled-again", "messy"})
    void theCaseComesOutAsComputedApart(String name) throws IOException {
        JsonNode expected = Samples.expected(name);
        CaseFile file = file(name);

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
        return file.advanceTo(end).after().facts().stream()
                .filter(it -> it instanceof DerivedValue value && value.kind() == FactKind.TIME_IN_SITU)
                .map(it -> plain(((DerivedValue) it).value()))
                .toList();
    }

    private static List<String> minutesInSitu(JsonNode expected) {
        List<String> minutes = new ArrayList<>();
        expected.path("tamponades")
                .forEach(it -> minutes.add(plain(it.path("minutesInSitu").decimalValue())));
        return minutes;
    }

    private static CaseFile file(String name) throws IOException {
        EventReader reader = new EventReader(PROTOCOL, Clock.systemUTC());
        Map<Object, EventEnvelope> events = new LinkedHashMap<>();
        try (EventLines lines = new EventLines(new ByteArrayInputStream(Samples.events(name)))) {
            for (EventLine line = lines.next(); line != null; line = lines.next()) {
                if (reader.read(line) instanceof Intake.Taken taken
                        && taken.event().caseId() != null) {
                    events.put(taken.event().eventId(), taken.event());
                }
            }
        }
        return CaseFile.of(events.values().iterator().next().caseId(), PROTOCOL, events.values());
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
