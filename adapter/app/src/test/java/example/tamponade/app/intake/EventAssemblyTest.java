package example.tamponade.app.intake;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a stated event comes to is the same event as its JSON, as the event reader reads it. */
class EventAssemblyTest {

    private static final EventReader READER = new EventReader(
            CareProtocol.standard(), Clock.fixed(Instant.parse("2026-06-01T12:00:00Z"), ZoneOffset.UTC));
    private static final EventAssembly ASSEMBLY = new EventAssembly(READER);
    private static final byte[] ORIGINAL = "as it came".getBytes(UTF_8);

    private static final String ENVELOPE = """
            {"eventId":"6f0d7a7c-3c1e-4d51-9a55-0a1b2c3d4e5f","caseId":"QBP-7","facilityId":"quillmere-bp",\
            "type":"%s","occurredAt":"2026-05-02T23:58:00+05:45","recordedAt":"2026-05-03T00:01:00+05:45",\
            "recordedBy":{"id":"qm-01","role":"midwife"},"data":%s}""";

    @Test
    void makesNumbersAmountsWithUnitsAndYesOrNo() {
        StatedEvent stated = stated("blood-loss")
                .with("/data/method", "weighed", "row 7, column method")
                .with("/data/reading", "increment", "row 7, column reading")
                .with("/data/wetG", "0.285", "kg", "row 7, column wetG")
                .with("/data/dryG", " 35 ", "row 7, column dryG")
                .with("/data/emptied", "Yes", "row 7, column emptied");

        assertThat(taken(stated)).isEqualTo(event("blood-loss", """
                {"method":"weighed","reading":"increment","wetG":{"value":0.285,"unit":"kg"},"dryG":35,"emptied":true}
                """));
    }

    @Test
    void makesListsAndListsOfObjectsInTheOrderStated() {
        StatedEvent opened = stated("case-opened")
                .with("/data/mother/identifiers/system", "urn:example:ward", "field 1")
                .with("/data/mother/identifiers/system", "urn:example:realm", "field 2")
                .with("/data/mother/identifiers/value", "0042", "field 3")
                .with("/data/mother/identifiers/value", "OM-7", "field 4")
                .with("/data/mother/name", "Brielle Fogwarden", "field 5")
                .with("/data/encounterStart", "2026-05-02T18:20:00+05:45", "field 6");
        StatedEvent recognised = stated("haemorrhage-recognised")
                .with("/data/criteria", "volume", "field 1")
                .with("/data/criteria", "signs", "field 1")
                .withEmptyList("/data/suspectedCause", "field 2");

        assertThat(taken(opened)).isEqualTo(event("case-opened", """
                {"mother":{"identifiers":[{"system":"urn:example:ward","value":"0042"},
                {"system":"urn:example:realm","value":"OM-7"}],"name":"Brielle Fogwarden"},
                "encounterStart":"2026-05-02T18:20:00+05:45"}
                """));
        assertThat(taken(recognised))
                .isEqualTo(
                        event("haemorrhage-recognised", "{\"criteria\":[\"volume\",\"signs\"],\"suspectedCause\":[]}"));
    }

    @Test
    void takesARetractionWithoutData() {
        StatedEvent stated = envelope().with("/retracts", "0b9c1f0e-6a5d-4f0b-8d7e-1a2b3c4d5e6f", "row 7");

        assertThat(taken(stated).data()).isNull();
    }

    @Test
    void keepsTheDigestOfTheBytesThatCame() {
        Intake.Taken taken = (Intake.Taken)
                ASSEMBLY.read(stated("note").with("/data/text", "Awake.", "row 7, column text"), Original.of(ORIGINAL));

        // As GNU sha256sum prints it for the same bytes.
        assertThat(taken.digest()).isEqualTo("f07c4429cfa777dc0dfa21e8be6dd2ecaab3db015a4da4870684c10214c13222");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            blood-loss      | /data/volumeMl       | much       |      | wrong-type       | /data/volumeMl      | number alone
            vital-signs     | /data/pulse          | 96         | kg   | wrong-unit       | /data/pulse/unit    | /min
            blood-loss      | /data/volume         | 350        |      | unknown-property | /data/volume        | volumeMl
            blood-loss      | /data/volumeMl/x     | 350        |      | unknown-property | /data/volumeMl/x    | value
            blood-loss      | /data/emptied        | perhaps    |      | wrong-type       | /data/emptied       | yes or no
            blood-loss      | /data/emptied        | yes        | mL   | wrong-unit       | /data/emptied       | without a unit
            blood-loss      | /data/method         | drape      |      | not-in-list      | /data/method        | graduated-drape
            vital-signs     | /data/pulse          | 1e999      |      | invalid-value    | /data/pulse         | as it was read
            medicine-given  | /data/dose           | 10         | [iU] | wrong-unit       | /data/dose          | give it there
            help-called     | /data/who/role       | doctor     |      | not-in-list      | /data/who/0         | doctor
            haemorrhage-recognised | /data/criteria | guess     |      | not-in-list      | /data/criteria/0    | judgement
            """)
    void refusesAValueAtItsPlaceInTheInput(
            String type, String path, String text, String unit, String code, String where, String remedy) {
        StatedEvent stated = stated(type).with(path, text, unit, "row 7, column x");

        assertThat(refused(stated)).anySatisfy(it -> {
            assertThat(it.code().code()).isEqualTo(code);
            assertThat(it.path()).isEqualTo(where);
            assertThat(it.place()).isEqualTo("row 7, column x");
            assertThat(it.remedy()).contains(remedy);
        });
    }

    @Test
    void namesTheEventWhereAPropertyIsMissing() {
        assertThat(refused(stated("bleeding-checked")))
                .extracting(it -> it.code().code(), Reason::path, Reason::place)
                .containsExactly(tuple("missing-property", "/data/amount", "row 7"));
    }

    @Test
    void refusesAPropertyThatIsStatedTwice() {
        StatedEvent stated = stated("bleeding-checked")
                .with("/data/amount", "light", "row 7, column amount")
                .with("/data/amount", "heavy", "row 7, column amount again");

        assertThat(refused(stated))
                .extracting(it -> it.code().code(), Reason::path, Reason::place)
                .containsExactly(tuple("invalid-value", "/data/amount", "row 7, column amount again"));
    }

    // The mother of an outcome is a code, that of an opened case is a person.
    @Test
    void refusesAValueWhereAnotherIsPartOfIt() {
        StatedEvent stated = stated("outcome")
                .with("/data/mother", "recovered", "row 7, column mother")
                .with("/data/mother/name", "Brielle Fogwarden", "row 7, column mother.name")
                .with("/data/closesCase", "yes", "row 7, column closesCase");

        assertThat(refused(stated))
                .extracting(it -> it.code().code(), Reason::path, Reason::place)
                .containsExactly(tuple("invalid-value", "/data/mother", "row 7, column mother.name"));
    }

    @Test
    void tellsWhatTheFormatCouldNotReadTogetherWithEveryOtherReason() {
        Reason ambiguous = new Reason(ReasonCode.INVALID_VALUE, "", "day or month first?", "write 2026-05-02");
        StatedEvent stated = stated("urine")
                .with("/data/volumeMl", "x", "row 7, column volumeMl")
                .withUnreadable("/data/from", "02/05/2026 01:00", ambiguous, "row 7, column from")
                .with("/data/to", "2026-05-02T02:00:00", "row 7, column to");

        assertThat(refused(stated))
                .extracting(it -> it.code().code(), Reason::path, Reason::place, Reason::remedy)
                .contains(
                        tuple("invalid-value", "/data/from", "row 7, column from", "write 2026-05-02"),
                        tuple(
                                "wrong-type",
                                "/data/volumeMl",
                                "row 7, column volumeMl",
                                "write the number alone, for example 350 or 37.5"))
                .anySatisfy(it -> assertThat(it.toList()).startsWith("time-without-offset", "/data/to"))
                .hasSize(3);
    }

    private static StatedEvent envelope() {
        return new StatedEvent("row 7")
                .with("/eventId", "6f0d7a7c-3c1e-4d51-9a55-0a1b2c3d4e5f", "row 7, column eventId")
                .with("/caseId", "QBP-7", "row 7, column caseId")
                .with("/facilityId", "quillmere-bp", "row 7, column facilityId")
                .with("/occurredAt", "2026-05-02T23:58:00+05:45", "row 7, column occurredAt")
                .with("/recordedAt", "2026-05-03T00:01:00+05:45", "row 7, column recordedAt")
                .with("/recordedBy/id", "qm-01", "row 7, column recordedById")
                .with("/recordedBy/role", "midwife", "row 7, column recordedByRole");
    }

    private static StatedEvent stated(String type) {
        return envelope().with("/type", type, "row 7, column type");
    }

    private static EventEnvelope taken(StatedEvent stated) {
        return ((Intake.Taken) ASSEMBLY.read(stated, Original.of(ORIGINAL))).event();
    }

    private static List<Reason> refused(StatedEvent stated) {
        return ((Intake.Refused) ASSEMBLY.read(stated, Original.of(ORIGINAL))).reasons();
    }

    private static EventEnvelope event(String type, String data) {
        return ((Intake.Taken)
                        READER.read(Original.of(ENVELOPE.formatted(type, data).getBytes(UTF_8))))
                .event();
    }
}
