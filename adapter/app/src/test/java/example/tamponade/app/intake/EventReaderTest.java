package example.tamponade.app.intake;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Samples;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

class EventReaderTest {

    private static final Clock NOON = Clock.fixed(Instant.parse("2026-06-01T12:00:00Z"), ZoneOffset.UTC);
    private static final EventReader READER = new EventReader(CareProtocol.standard(), NOON);

    private static final String LOSS = """
            {"eventId":"6f0d7a7c-3c1e-4d51-9a55-0a1b2c3d4e5f","caseId":"QBP-7","facilityId":"quillmere-bp",\
            "type":"blood-loss","occurredAt":"2026-05-02T23:58:00+05:45","recordedAt":"2026-05-03T00:01:00+05:45",\
            "recordedBy":{"id":"qm-01","role":"midwife"},\
            "data":{"method":"graduated-drape","reading":"running-total","collector":"main","volumeMl":350}}""";

    @ParameterizedTest
    @ValueSource(strings = {"settled", "referred", "bled-again", "warnings", "messy"})
    void takesAndRefusesTheSampleLinesAsExpected(String name) throws IOException {
        JsonNode expected = Samples.expected(name).path("events");
        List<String> refused = new ArrayList<>();
        int taken = 0;
        try (EventLines lines = new EventLines(new ByteArrayInputStream(Samples.events(name)))) {
            for (EventLine line = lines.next(); line != null; line = lines.next()) {
                if (READER.read(line.original()) instanceof Intake.Refused it) {
                    refused.add(line.number() + " " + it.reasons().get(0).code().code());
                } else {
                    taken++;
                }
            }
        }

        List<String> expectedRefusals = new ArrayList<>();
        expected.path("refused")
                .forEach(it -> expectedRefusals.add(
                        it.path("line").asInt() + " " + it.path("reason").asString()));
        assertThat(refused).isEqualTo(expectedRefusals);
        assertThat(taken + refused.size()).isEqualTo(expected.path("lines").asInt());
    }

    @Test
    void readsTimesWithTheOffsetThatWasWritten() {
        EventEnvelope event = taken(LOSS);

        assertThat(event.occurredAt()).isEqualTo(OffsetDateTime.parse("2026-05-02T23:58:00+05:45"));
        assertThat(event.occurredAt().getOffset()).isEqualTo(ZoneOffset.ofHoursMinutes(5, 45));
    }

    @ParameterizedTest
    @ValueSource(strings = {"1e2147483648", "1e999999999", "-1e-999999999", "1e2147483647", "12345678901234567890"})
    void refusesNumbersThatNoReadingHas(String number) {
        Intake read = READER.read(Original.of(LOSS.replace("350", number).getBytes(UTF_8)));

        assertThat(read)
                .isInstanceOfSatisfying(
                        Intake.Refused.class,
                        it -> assertThat(it.reasons())
                                .extracting(Reason::code)
                                .isSubsetOf(ReasonCode.INVALID_VALUE, ReasonCode.MALFORMED_JSON)
                                .isNotEmpty());
    }

    // FHIR R4, data types: dateTime has no year 0000 and no offset beyond 14 hours; a string is not of blanks alone.
    // What
    // cannot be seen, as a mark of byte order, is no more of a text than a blank is: common practice, no source.
    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
            "occurredAt":"2026-05-02T23:58:00+05:45" | "occurredAt":"2026-05-02T23:58:00+18:00" | time-without-offset | /occurredAt
            "occurredAt":"2026-05-02T23:58:00+05:45" | "occurredAt":"2026-05-02T23:58:00-14:01" | time-without-offset | /occurredAt
            "occurredAt":"2026-05-02T23:58:00+05:45" | "occurredAt":"0000-05-02T23:58:00+05:45" | invalid-value       | /occurredAt
            "recordedAt":"2026-05-03T00:01:00+05:45" | "recordedAt":"9999-12-31T23:59:59-14:00" | invalid-value       | /recordedAt
            "id":"qm-01"                             | "id":"\\u3000"                           | invalid-value       | /recordedBy/id
            "collector":"main"                       | "collector":"\\u2028"                    | invalid-value       | /data/collector
            "collector":"main"                       | "collector":"\\ufeff"                    | invalid-value       | /data/collector
            "collector":"main"                       | "collector":"a\\ud800"                   | invalid-value       | /data/collector
            """)
    void refusesWhatFhirHasNoPlaceFor(String part, String spoilt, String code, String path) {
        Intake read = READER.read(Original.of(LOSS.replace(part, spoilt).getBytes(UTF_8)));

        assertThat(read)
                .isInstanceOfSatisfying(
                        Intake.Refused.class,
                        it -> assertThat(it.reasons()).singleElement().satisfies(reason -> {
                            assertThat(reason.code().code()).isEqualTo(code);
                            assertThat(reason.path()).isEqualTo(path);
                        }));
    }

    @Test
    void refusesAnEventAtWhichTheReaderFails() {
        Intake read = Intake.guarded(() -> {
            throw new StackOverflowError();
        });

        assertThat(read)
                .isInstanceOfSatisfying(
                        Intake.Refused.class,
                        it -> assertThat(it.reasons())
                                .singleElement()
                                .satisfies(reason -> assertThat(reason.code()).isEqualTo(ReasonCode.ADAPTER_FAULT)));
    }

    // 12 US fluid ounces are 354.88235475 mL: UCUM essence table.
    @Test
    void convertsAnAmountInAnotherUnitOfTheSameKind() {
        EventEnvelope event = taken(LOSS.replace("350", "{\"value\":12,\"unit\":\"[foz_us]\"}"));

        assertThat(((BloodLoss) event.data()).volumeMl()).isEqualByComparingTo("354.88235475");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
            "volumeMl":350          | "volumeMl":-1                            | impossible-value    | /data/volumeMl      | outside 0 to 10000 mL
            "volumeMl":350          | "volumeMl":"350"                         | wrong-type          | /data/volumeMl      | without quotes
            "volumeMl":350          | "volume":350,"volumeMl":350              | unknown-property    | /data/volume        | volumeMl
            "volumeMl":350          | "volumeMl":{"value":1,"unit":"kg"}       | wrong-unit          | /data/volumeMl/unit | mL
            "volumeMl":350          | "volumeMl":{"value":1,"unit":"ML"}       | impossible-value    | /data/volumeMl      | outside 0 to 10000 mL
            "volumeMl":350          | "volumeMl":1e99                          | invalid-value       | /data/volumeMl      | digits
            "volumeMl":350          | "volumeMl":NaN                           | malformed-json      | ``                  | column
            "collector":"main"      | "collector":"ma\\u0007in"                 | invalid-value       | /data/collector     | control character
            ,"volumeMl":350         | ``                                       | missing-property    | /data/volumeMl      | add it
            "blood-loss"            | "blood-lost"                             | unknown-type        | /type               | blood-loss
            "graduated-drape"       | "drape"                                  | not-in-list         | /data/method        | graduated-drape
            23:58:00+05:45          | 23:58:00                                 | time-without-offset | /occurredAt         | +05:45
            2026-05-02T23:58:00     | 2026-02-30T23:58:00                      | invalid-value       | /occurredAt         | exists
            2026-05-02T23:58:00     | 2026-07-02T23:58:00                      | impossible-value    | /occurredAt         | clock
            "role":"midwife"        | "role":"wizard"                          | not-in-list         | /recordedBy/role    | midwife
            "eventId":"6f0d7a7c-    | "eventId":"x6f0d7a7c-                    | invalid-value       | /eventId            | example
            {"eventId"              | {"eventId":1,"eventId"                   | malformed-json      | ``                  | Duplicate
            350}}                   | 350}} {}                                 | malformed-json      | ``                  | column
            """)
    void refusesWithPlaceAndRemedy(String right, String wrong, String code, String path, String words) {
        Intake.Refused refused = refused(LOSS.replace(right, wrong == null ? "" : wrong));

        Reason reason = refused.reasons().get(0);
        assertThat(reason.code().code()).isEqualTo(code);
        assertThat(reason.path()).isEqualTo(path == null ? "" : path);
        assertThat(reason.message() + " " + reason.remedy()).contains(words);
        assertThat(reason.remedy()).isNotBlank();
    }

    @Test
    void refusesVitalSignsInWhichNothingWasMeasured() {
        String signs = LOSS.replace("blood-loss", "vital-signs").replaceFirst("\"data\":.*", "\"data\":{%s}}");

        assertThat(taken(signs.formatted("\"pressureUnrecordable\":true"))).isNotNull();
        assertThat(taken(signs.formatted("\"pressureUnrecordable\":false,\"pulse\":96")))
                .isNotNull();
        assertThat(refused(signs.formatted("\"pressureUnrecordable\":false")).reasons())
                .singleElement()
                .satisfies(it -> assertThat(it.path()).isEqualTo("/data/pressureUnrecordable"))
                .satisfies(it -> assertThat(it.remedy()).contains("at least one measurement"));
    }

    // UCUM units keep their brackets in the remedy: without them [iU] is another unit.
    @Test
    void namesTheUnitsOfADoseAsTheyMustBeWritten() {
        String dose = LOSS.replace("blood-loss", "medicine-given")
                .replaceFirst(
                        "\"data\":.*",
                        "\"data\":{\"substance\":\"oxytocin\",\"dose\":10,\"unit\":\"IU\","
                                + "\"route\":\"intramuscular\"}}");

        assertThat(refused(dose).reasons()).singleElement().satisfies(it -> {
            assertThat(it.path()).isEqualTo("/data/unit");
            assertThat(it.remedy()).contains("[iU], ");
        });
    }

    @Test
    void collectsEveryReasonBeforeItRefuses() {
        Intake.Refused refused = refused(LOSS.replace("\"volumeMl\":350", "\"volume\":350")
                .replace("midwife", "wizard")
                .replace("23:58:00+05:45", "23:58:00"));

        assertThat(refused.reasons())
                .extracting(it -> it.code().code())
                .containsExactlyInAnyOrder(
                        "time-without-offset", "not-in-list", "unknown-property", "missing-property");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "[]", "\"text\"", "12", "null"})
    void refusesWhatIsNoEvent(String text) {
        assertThat(refused(text).reasons().get(0).code()).isIn(ReasonCode.NOT_AN_OBJECT, ReasonCode.MALFORMED_JSON);
    }

    @Test
    void refusesTextThatIsNotUtf8() {
        byte[] latin1 = LOSS.replace("main", "Zoë").getBytes(StandardCharsets.ISO_8859_1);

        Intake.Refused refused = (Intake.Refused) READER.read(Original.of(latin1));

        assertThat(refused.reasons()).extracting(Reason::code).containsExactly(ReasonCode.WRONG_ENCODING);
    }

    @Test
    void passesOverAByteOrderMark() {
        assertThat(READER.read(Original.of(("\uFEFF" + LOSS).getBytes(UTF_8)))).isInstanceOf(Intake.Taken.class);
    }

    @Test
    void refusesALineOfTenMegabytesAndReadsTheNext() throws IOException {
        String file = "x".repeat(10 << 20) + "\n" + LOSS;
        try (EventLines lines = new EventLines(new ByteArrayInputStream(file.getBytes(UTF_8)))) {
            EventLine huge = lines.next();
            assertThat(huge.original().length()).isEqualTo(10 << 20);
            assertThat(((Intake.Refused) READER.read(huge.original())).reasons())
                    .extracting(Reason::code)
                    .containsExactly(ReasonCode.TOO_LONG);
            assertThat(READER.read(lines.next().original())).isInstanceOf(Intake.Taken.class);
            assertThat(lines.next()).isNull();
        }
    }

    // The digest as GNU sha256sum prints it for the same text.
    @Test
    void keepsTheTextAsItCameWithItsDigest() {
        Intake.Taken taken = (Intake.Taken) READER.read(Original.of(LOSS.getBytes(UTF_8)));

        assertThat(taken.payload()).isEqualTo(LOSS);
        assertThat(taken.digest()).isEqualTo("9697d421da775da55d00ca82cb0f8628264fae80e502f94769ceaf6cfe32593b");
    }

    private static EventEnvelope taken(String text) {
        return ((Intake.Taken) READER.read(Original.of(text.getBytes(UTF_8)))).event();
    }

    private static Intake.Refused refused(String text) {
        return (Intake.Refused) READER.read(Original.of(text.getBytes(UTF_8)));
    }
}
