package example.tamponade.core.protocol;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.io.InputStream;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class CareProtocolTest {

    private static final String STANDARD = standard();

    @Test
    void everyValueOfTheStandardProtocolHasASource() {
        CareProtocol protocol = CareProtocol.standard();

        assertThat(protocol.values().values())
                .hasSize(Setting.values().length)
                .allSatisfy(it -> assertThat(it.source()).isNotBlank());
        assertThat(protocol.limits().values())
                .hasSize(Measure.values().length)
                .allSatisfy(it -> assertThat(it.source()).isNotBlank());
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/care-protocol/values.csv", numLinesToSkip = 1, delimiter = '|')
    void holdsThePublishedValue(String setting, BigDecimal value, String unit, String source) {
        ProtocolValue held = CareProtocol.standard()
                .values()
                .get(Arrays.stream(Setting.values())
                        .filter(it -> it.code().equals(setting))
                        .findFirst()
                        .orElseThrow());

        assertThat(held.value()).isEqualByComparingTo(value);
        assertThat(held.setting().unit()).isEqualTo(unit);
        assertThat(held.source()).isEqualTo(source);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/care-protocol/limits.csv", numLinesToSkip = 1, delimiter = '|')
    void holdsTheLimit(
            String measure,
            BigDecimal possibleFrom,
            BigDecimal possibleTo,
            BigDecimal plausibleFrom,
            BigDecimal plausibleTo) {
        Limit limit = CareProtocol.standard()
                .limit(Arrays.stream(Measure.values())
                        .filter(it -> it.code().equals(measure))
                        .findFirst()
                        .orElseThrow());

        assertThat(limit.possibleFrom()).isEqualByComparingTo(possibleFrom);
        assertThat(limit.possibleTo()).isEqualByComparingTo(possibleTo);
        assertThat(limit.plausibleFrom()).isEqualByComparingTo(plausibleFrom);
        assertThat(limit.plausibleTo()).isEqualByComparingTo(plausibleTo);
    }

    // Commonly stated, original not found: every 15 min for 2 h, every 30 min for 1 h, then hourly; from 12:00 that is
    // 12:15 to 14:00, 14:30, 15:00, 16:00. While bleeding every 5 min: Remote Primary Health Care Manuals.
    @Test
    void checksEachPhaseAtItsIntervals() {
        CheckSchedule schedule = CareProtocol.standard().schedule();
        List<Long> due = new ArrayList<>();
        Duration inPhase = Duration.ZERO;
        while (due.size() < 11) {
            inPhase = inPhase.plus(schedule.every(Phase.BLEEDING_CONTROLLED, inPhase));
            due.add(inPhase.toMinutes());
        }

        assertThat(due).containsExactly(15L, 30L, 45L, 60L, 75L, 90L, 105L, 120L, 150L, 180L, 240L);
        assertThat(List.of(Phase.NOT_INSERTED, Phase.BEING_FILLED))
                .allSatisfy(it ->
                        assertThat(schedule.every(it, Duration.ofHours(3))).isEqualTo(Duration.ofMinutes(5)));
        assertThat(schedule.every(Phase.DEFLATION, Duration.ZERO)).isEqualTo(Duration.ofMinutes(15));
        assertThat(schedule.every(Phase.DEFLATION, Duration.ofHours(1))).isEqualTo(Duration.ofMinutes(30));
        assertThat(schedule.every(Phase.DEFLATED, Duration.ofHours(1))).isEqualTo(Duration.ofMinutes(15));
        assertThat(schedule.every(Phase.REMOVED, Duration.ofHours(1))).isEqualTo(Duration.ofMinutes(15));
        assertThat(schedule.every(Phase.REMOVED, Duration.ofHours(2))).isEqualTo(Duration.ofMinutes(30));
        assertThat(schedule.every(Phase.REMOVED, Duration.ofHours(3))).isEqualTo(Duration.ofMinutes(60));
    }

    @Test
    void takesTheChoicesOfPregnancyAndOfOneWatchedStep() {
        assertThat(CareProtocol.standard().bloodVolumeMethod()).isEqualTo(BloodVolumeMethod.WEIGHT);
        assertThat(CareProtocol.standard().deflationCompletion()).isEqualTo(DeflationCompletion.REST_AT_ONCE);
    }

    @Test
    void everySettingHasItsRowInTheTable() throws IOException {
        try (InputStream in = CareProtocolTest.class.getResourceAsStream("/published/care-protocol/values.csv")) {
            String table = new String(in.readAllBytes(), StandardCharsets.UTF_8);

            assertThat(Setting.values()).allSatisfy(it -> assertThat(table).contains("\n" + it.code() + "|"));
        }
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            unit: g/mL            | unit: kg/L             | settings.blood-density.unit is kg/L; this value is held in g/mL
            value: 1.0            | value: one             | settings.blood-density.value must be a decimal number
            blood-density:        | blood-densty:          | settings.blood-densty is not known here
            value: 24             | value: 5               | minimum-dwell 6 is not below settings.maximum-dwell 5
            value: weight         | value: length          | has no choice 'length'; use one of weight, height-weight
            [{every: 5}]          | [{every: 5, for: 9}]   | is the last stage and lasts on; drop its for
            [{every: 5}]          | [{every: 0}]           | has a every of 0, which cannot be meant; it is from 1 to 1440
            [{every: 5}]          | [{every: 2.5}]         | has a every of 2.5; it is in whole minutes
            raised-from: 0.9      | raised-from: 0         | has a raised-from of 0, which cannot be meant
            raised-from: 0.9      | raised-from: 1.4       | begins the high band at or below the raised one
            high-from: 1.4        | high-from: 1.7         | begins the critical band at or below the high one
            possible: [1, 350], p | possible: [350, 1], p  | begins above its end; swap the two
            plausible: [30, 220]  | plausible: [30, 400]   | calls plausible what it calls impossible
            version: "1"          | vers: "1"              | version is missing; add it
            """)
    void namesWhatIsWrongAndOnWhichLine(String right, String wrong, String problem) {
        String broken = STANDARD.replaceFirst(Pattern.quote(right), wrong);

        InvalidProtocolException refusal =
                assertThrows(InvalidProtocolException.class, () -> CareProtocol.read("ward.yaml", broken));

        assertThat(refusal).hasMessageContaining("ward.yaml").hasMessageContaining(problem);
        assertThat(refusal.getMessage()).containsPattern("line [1-9]\\d*: ");
    }

    @ParameterizedTest
    @EnumSource(Setting.class)
    void everySettingHasItsPossibleRange(Setting setting) {
        Pattern value = Pattern.compile("(?<=\n  " + setting.code() + ":\n    value: )\\S+");
        int line = (int) STANDARD.substring(0, matched(value).start()).lines().count();
        for (String beyond : List.of("-1", "1e7", "1e999999999")) {
            String broken = value.matcher(STANDARD).replaceFirst(beyond);

            InvalidProtocolException refusal =
                    assertThrows(InvalidProtocolException.class, () -> CareProtocol.read("ward.yaml", broken));

            assertThat(refusal).hasMessageContaining(setting.code()).hasMessageContaining("line " + line + ":");
        }
    }

    private static java.util.regex.Matcher matched(Pattern pattern) {
        java.util.regex.Matcher matcher = pattern.matcher(STANDARD);
        assertThat(matcher.find()).isTrue();
        return matcher;
    }

    @Test
    void aChangedCopyHasAnotherReference() {
        CareProtocol changed = CareProtocol.read("ward.yaml", STANDARD.replace("value: 24", "value: 25"));

        assertThat(changed.id()).isEqualTo(CareProtocol.standard().id());
        assertThat(changed.reference())
                .isNotEqualTo(CareProtocol.standard().reference())
                .matches("common-practice\\|1\\|[0-9a-f]{64}");
    }

    @Test
    void collectsEveryProblemBeforeItRefuses() {
        String broken = STANDARD.replace("unit: g/mL", "unit: kg/L").replace("version: \"1\"", "vers: \"1\"");

        InvalidProtocolException refusal =
                assertThrows(InvalidProtocolException.class, () -> CareProtocol.read("ward.yaml", broken));

        assertThat(refusal).hasMessageContaining("held in g/mL").hasMessageContaining("version is missing");
    }

    @Test
    void saysWhereTheFileIsNoYaml() {
        InvalidProtocolException refusal =
                assertThrows(InvalidProtocolException.class, () -> CareProtocol.read("ward.yaml", "id: a\n  b: [1,\n"));

        assertThat(refusal).hasMessageContaining("line ").hasMessageContaining("not YAML");
    }

    private static String standard() {
        try (InputStream in = CareProtocol.class.getResourceAsStream("standard-protocol.yaml")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }
}
