package example.tamponade.app.register;

import static example.tamponade.app.register.Registers.outcomes;
import static example.tamponade.app.register.Registers.pieces;
import static example.tamponade.app.register.Registers.refused;
import static example.tamponade.app.register.Registers.taken;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Piece;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.CaseId;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.EventSource;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.time.OffsetDateTime;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class RegisterFormatTest {

    private static final String HEADER =
            "entry;caseId;facilityId;type;date;time;recordedAt;recordedById;recordedByRole;"
                    + "method;reading;volumeMl;otherFluidMl;corrects\r\n";
    private static final String ROW =
            "12;FGL-2026-0117;fernglade-hp;blood-loss;11.02.2026;22:58;2026-02-11 23:01;fg-mw-02;"
                    + "midwife;visual;increment;37,5;;\r\n";

    @Test
    void readsARowAsASpreadsheetWritesIt() {
        EventEnvelope event = event("\uFEFF" + HEADER + ROW);

        assertThat(event.occurredAt()).isEqualTo(OffsetDateTime.parse("2026-02-11T22:58:00+05:45"));
        assertThat(event.occurredAt().getOffset()).hasToString("+05:45");
        assertThat(event.recordedAt()).isEqualTo(OffsetDateTime.parse("2026-02-11T23:01:00+05:45"));
        assertThat(event.source()).isEqualTo(EventSource.REGISTER);
        assertThat(((BloodLoss) event.data()).volumeMl()).isEqualByComparingTo("37.5");
    }

    @Test
    void readsTheSameEventWhateverTheSeparatorAndTheLineEnd() {
        EventEnvelope event = event(HEADER + ROW);
        String commas = HEADER.replace(';', ',') + ROW.replace("37,5", "37.5").replace(';', ',');
        String tabs = (HEADER + ROW).replace(';', '\t');
        String names = HEADER.replace("caseId", " CASEID ").replace("volumeMl", "\"VolumeML\"");

        assertThat(List.of(
                        event(commas),
                        event(tabs),
                        event("sep=;\r\n" + HEADER + ROW),
                        event("\uFEFFSEP=\t\r\n" + tabs),
                        event(names + ROW),
                        event((HEADER + ROW).replace("\r\n", "\n")),
                        event((HEADER + ROW).replace("\r\n", "\r"))))
                .containsOnly(event);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
            37,5         | 1.234          | invalid-value       | /data/volumeMl      | column volumeMl         | thousands as 1234
            37,5         | 1,234          | invalid-value       | /data/volumeMl      | column volumeMl         | 1.2340
            37,5         | 1.234,5        | invalid-value       | /data/volumeMl      | column volumeMl         | thousands as 1234
            37,5         | 1 234          | invalid-value       | /data/volumeMl      | column volumeMl         | thousands as 1234
            37,5         | 1'234          | invalid-value       | /data/volumeMl      | column volumeMl         | thousands as 1234
            37,5         | 12.345.678 mL  | invalid-value       | /data/volumeMl      | column volumeMl         | thousands as 1234
            37,5         | 1,2E+03        | invalid-value       | /data/volumeMl      | column volumeMl         | format the column
            37,5         | 3e2            | invalid-value       | /data/volumeMl      | column volumeMl         | all digits
            37,5         | #REF!          | invalid-value       | /data/volumeMl      | column volumeMl         | formula
            37,5         | #N/A           | invalid-value       | /data/volumeMl      | column volumeMl         | formula
            37,5         | ####           | invalid-value       | /data/volumeMl      | column volumeMl         | formula
            37,5         | -37,5          | impossible-value    | /data/volumeMl      | column volumeMl         | measured
            37,5         | (37,5)         | wrong-type          | /data/volumeMl      | column volumeMl         | number alone
            37,5         | 37,5mL         | wrong-type          | /data/volumeMl      | column volumeMl         | number alone
            37,5         | about 40       | wrong-type          | /data/volumeMl      | column volumeMl         | number alone
            37,5         | 1 kg           | wrong-unit          | /data/volumeMl/unit | column volumeMl         | in mL
            37,5         | ``             | missing-property    | /data/volumeMl      | row 2                   | add it
            visual       | by eye         | not-in-list         | /data/method        | column method           | weighed
            blood-loss   | blood-lost     | unknown-type        | /type               | column type             | blood-loss
            blood-loss   | note           | unknown-property    | /data/volumeMl      | column volumeMl         | text
            12;          | ;              | missing-property    | /eventId            | row 2                   | count twice
            12;          | #REF!;         | invalid-value       | /eventId            | column entry            | for example 12
            12;          | 1E+05;         | invalid-value       | /eventId            | column entry            | for example 12
            fernglade-hp | nowhere-hp     | time-without-offset | /occurredAt         | columns date and time   | offset
            11.02.2026   | 11/02/2026     | invalid-value       | /occurredAt         | columns date and time   | date order
            11.02.2026   | 30.02.2026     | invalid-value       | /occurredAt         | columns date and time   | that was meant
            11.02.2026   | 11.02.26       | invalid-value       | /occurredAt         | columns date and time   | four digits
            11.02.2026   | ``             | missing-property    | /occurredAt         | column date             | fill in both
            22:58        | ``             | missing-property    | /occurredAt         | column time             | fill in both
            22:58        | 24:58          | invalid-value       | /occurredAt         | columns date and time   | 22:58
            22:58        | 10:58 PM       | invalid-value       | /occurredAt         | columns date and time   | 22:58
            22:58        | 22:58+19:00    | invalid-value       | /occurredAt         | columns date and time   | 22:58
            -11 23:01    | -11            | invalid-value       | /recordedAt         | column recordedAt       | 22:58
            ;;~          | ;;-12~         | invalid-value       | /corrects           | column corrects         | for example 12
            ;;~          | ;;0b9c1f0e-6a5d-4f0b-8d7e-1a2b3c4d5e6~ | invalid-value | /corrects | column corrects | example
            ;;~          | ;;;left over~ | invalid-value    | ``                  | row 2                   | name the column
            37,5         | "37,5          | invalid-value       | ``                  | row 2                   | twice
            37,5         | "37",5         | invalid-value       | ``                  | row 2                   | twice
            """)
    void refusesWithPlaceAndRemedy(String right, String wrong, String code, String path, String place, String remedy) {
        String row = ROW.replace(line(right), wrong == null ? "" : line(wrong));

        List<Piece> pieces = pieces(HEADER + row);

        assertThat(row).isNotEqualTo(ROW);
        assertThat(pieces)
                .singleElement()
                .satisfies(piece -> assertThat(refused(piece)).anySatisfy(it -> {
                    assertThat(it.code().code()).isEqualTo(code);
                    assertThat(it.path()).isEqualTo(path);
                    assertThat(it.place()).isIn("row 2", "row 2, " + place).endsWith(place);
                    assertThat(it.remedy()).contains(remedy);
                }));
    }

    private static String line(String text) {
        return text.replace("~", "\r\n");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            37,5          | 37.5
            37.5          | 37.5
            0,285         | 0.285
            1234,567      | 1234.567
            1,2340        | 1.234
            12 mL         | 12
            0,5 L         | 500
            12 [foz_us]   | 354.88235475
            """)
    // 12 US fluid ounces are 354.88235475 mL: UCUM essence table.
    void readsNumbersThatCanBeReadInOneWay(String cell, String millilitres) {
        assertThat(((BloodLoss) event(HEADER + ROW.replace("37,5", cell)).data()).volumeMl())
                .isEqualByComparingTo(millilitres);
    }

    @Test
    void refusesADecimalCommaBetweenCommas() {
        String header = HEADER.replace(';', ',');
        String quoted = ROW.replace("37,5", "\"37x5\"").replace(';', ',').replace('x', ',');
        String shifted = ROW.replace(';', ',');

        assertThat(refused(pieces(header + quoted).get(0)).get(0).remedy()).contains("with a point");
        assertThat(refused(pieces(header + shifted).get(0)).get(0).message()).contains("15 cells, the header 14");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            fernglade-hp   | 2026-02-11 22:58:30            | 2026-02-11T22:58:30+05:45
            fernglade-hp   | 2026-02-11T22:58               | 2026-02-11T22:58:00+05:45
            fernglade-hp   | 2026-02-11T22:58:00.250+05:45  | 2026-02-11T22:58:00.250+05:45
            fernglade-hp   | 1.2.2026 9:05                  | 2026-02-01T09:05:00+05:45
            fernglade-hp   | 11.02.2026 17:13 Z             | 2026-02-11T17:13:00Z
            nowhere-hp     | 11.02.2026 22:58 -03:30        | 2026-02-11T22:58:00-03:30
            day-first-hp   | 11/02/2026 22:58               | 2026-02-11T22:58:00+05:45
            month-first-hp | 02/11/2026 22:58               | 2026-02-11T22:58:00+05:45
            summer-hp      | 29.03.2026 03:00               | 2026-03-29T03:00:00+02:00
            """)
    void readsTimesByTheFacilitysClock(String facility, String cell, String time) {
        String row = ROW.replace("fernglade-hp", facility)
                .replace("11.02.2026;22:58;2026-02-11 23:01", ";;2026-05-01T00:00:00Z")
                .replace(";;\r\n", ";;" + cell + "\r\n");

        assertThat(event(HEADER.replace("corrects", "occurredAt") + row).occurredAt())
                .isEqualTo(OffsetDateTime.parse(time));
    }

    // The clocks in Berlin go from 01:59:59 to 03:00 on 29 March 2026: IANA time zone database, rule EU.
    @Test
    void refusesATimeThatTheClocksNeverShowed() {
        String row = ROW.replace("fernglade-hp", "summer-hp").replace("11.02.2026;22:58", "29.03.2026;02:30");

        assertThat(refused(pieces(HEADER + row).get(0)).get(0).remedy()).contains("+01:00 before the change");
    }

    @Test
    void readsTimesAndDatesWithinTheDataLikeTheOthers() {
        String register = "entry;facilityId;caseId;type;occurredAt;recordedAt;recordedById;recordedByRole;"
                + "mother.identifiers.system;mother.identifiers.value;mother.birthDate;encounterStart\n"
                + "1;fernglade-hp;FGL-1;case-opened;11.02.2026 18:20;11.02.2026 18:22;fg-mw-02;midwife;"
                + "urn:example:ward | urn:example:realm;0042|OM-7;19.07.1998;11.02.2026 18:15\n"
                + "2;fernglade-hp;FGL-2;case-opened;11.02.2026 18:20;11.02.2026 18:22;fg-mw-02;midwife;"
                + "None;;;11.02.2026 18:15\n";

        assertThat(taken(pieces(register)))
                .extracting(it -> it.data().toString())
                .satisfiesExactly(
                        it -> assertThat(it)
                                .contains("0042", "OM-7", "urn:example:realm", "1998-07-19", "2026-02-11T18:15+05:45"),
                        it -> assertThat(it).contains("identifiers=[]"));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
            volumeMl    | volume       | unknown-property | row 1, column 12 | call it bagVolumeMl or volumeMl,
            volumeMl    | Volume (mL)  | unknown-property | row 1, column 12 | call it bagVolumeMl or volumeMl,
            volumeMl    | xyzzy        | unknown-property | row 1, column 12 | mother.identifiers.value
            volumeMl    | READING      | invalid-value    | row 1, column 12 | each column once
            entry;      | "entry;      | invalid-value    | row 1            | twice
            """)
    void refusesTheWholeRegisterForItsHeader(String right, String wrong, String code, String place, String remedy) {
        String register = HEADER.replaceFirst(right, wrong) + ROW + ROW;

        assertThat(pieces(register)).singleElement().satisfies(piece -> {
            assertThat(piece.original().bytes()).asString(UTF_8).isEqualTo(register);
            assertThat(refused(piece)).singleElement().satisfies(it -> {
                assertThat(it.code().code()).isEqualTo(code);
                assertThat(it.place()).isEqualTo(place);
                assertThat(it.remedy()).contains(remedy);
            });
        });
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "\uFEFF", "\r\n", "sep=;\n", "sep=#\n", "entry;caseId", "entry;caseId\r\n;\r\n \r\n"})
    void refusesARegisterWithoutRows(String register) {
        assertThat(pieces(register))
                .singleElement()
                .satisfies(it -> assertThat(refused(it))
                        .singleElement()
                        .extracting(reason -> reason.code().code())
                        .isIn("empty-input", "invalid-value"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"UTF-16", "UTF-16LE", "x-UTF-16LE-BOM"})
    void refusesOtherEncodings(String charset) {
        byte[] register = (HEADER + ROW).getBytes(Charset.forName(charset));

        assertThat(pieces(register)).singleElement().satisfies(it -> {
            assertThat(refused(it).get(0).code().code()).isEqualTo("wrong-encoding");
            assertThat(refused(it).get(0).remedy()).contains("UTF-8");
            assertThat(it.original().bytes()).isEqualTo(register);
        });
    }

    @Test
    void refusesOnlyTheRowsThatAreNotUtf8() {
        String register = HEADER + ROW.replace("fg-mw-02", "Zoë") + ROW;

        assertThat(outcomes(pieces(register.getBytes(StandardCharsets.ISO_8859_1))))
                .containsExactly("row 2 wrong-encoding", "row 3 taken");
    }

    @Test
    void givesTheSameRowTheSameIdWhereverItStands() {
        List<Piece> first = pieces(HEADER + ROW + ROW.replace("12;", "13;"));
        String moved = HEADER.replace("corrects", "emptied") + ROW.replace("12;", "13;") + ROW;
        String elsewhere = HEADER + ROW.replace("FGL-2026-0117", "FGL-2026-0118");

        assertThat(taken(pieces(moved))).containsExactlyInAnyOrderElementsOf(taken(first));
        assertThat(event(elsewhere).eventId()).isNotEqualTo(taken(first).get(0).eventId());
    }

    // Entry 12 of another facility's case is not entry 12 of the own case with that number.
    @Test
    void aCaseOfAnotherFacilityIsNamed() {
        EventEnvelope own = event(HEADER + ROW);
        String header = "caseFacility;" + HEADER;
        EventEnvelope another = event(header + "sorrelwick-ch;" + ROW);

        assertThat(own.caseId()).isEqualTo(new CaseId("fernglade-hp", "FGL-2026-0117"));
        assertThat(another.caseId()).isEqualTo(new CaseId("sorrelwick-ch", "FGL-2026-0117"));
        assertThat(another.eventId()).isNotEqualTo(own.eventId());
        assertThat(event(header + "fernglade-hp;" + ROW)).isEqualTo(own);
    }

    @Test
    void correctsARowByItsEntryNumberOrByItsEventId() {
        String byNumber = HEADER + ROW + ROW.replace("12;", "13;").replace(";;\r\n", ";;12\r\n");
        List<EventEnvelope> events = taken(pieces(byNumber));
        String byId = HEADER + ROW.replace(";;\r\n", ";;" + events.get(0).eventId() + "\r\n");

        assertThat(events.get(1).corrects()).isEqualTo(events.get(0).eventId());
        assertThat(event(byId).corrects()).isEqualTo(events.get(0).eventId());
    }

    @Test
    void withdrawsARowByItsEntryNumber() {
        String withdrawal =
                "13;FGL-2026-0117;fernglade-hp;;11.02.2026;23:05;2026-02-11 23:06;fg-mw-02;midwife;;;;;12\r\n";
        List<EventEnvelope> events = taken(pieces(HEADER.replace("corrects", "retracts") + ROW + withdrawal));

        assertThat(events.get(1).retracts()).isEqualTo(events.get(0).eventId());
        assertThat(events.get(1).data()).isNull();
    }

    @Test
    void losesNoOtherRowToAQuoteThatIsNotClosed() {
        String torn = ROW.replace("visual", "\"visual");
        // Two such quotes look like one cell over several lines.
        String register = HEADER + torn + ROW + torn.replace(";\"visual", ";visual\"") + ROW + torn + ROW;

        assertThat(outcomes(pieces(register)))
                .containsExactly(
                        "row 2 invalid-value",
                        "row 3 taken",
                        "row 4 not-in-list",
                        "row 5 taken",
                        "row 6 invalid-value",
                        "row 7 taken");
    }

    @Test
    void readsOnBehindRowsOfManyMegabytes() {
        String large = "x".repeat(3 << 20);
        String emptyRows = ";;;;;;;;;;;;;\r\n".repeat(200_000);
        String register = HEADER
                + ROW.replace("visual", large)
                + ROW.replace("visual", "\"" + large)
                + ROW.replace("visual", "\"visual")
                + emptyRows
                + ROW;

        List<Piece> pieces = pieces(register);

        assertThat(outcomes(pieces))
                .containsExactly("row 2 too-long", "row 3 too-long", "row 4 invalid-value", "row 200005 taken");
        assertThat(new String(pieces.get(0).original().bytes(), UTF_8))
                .isEqualTo(HEADER + ROW.replace("visual", large));
    }

    @Test
    void keepsHeaderAndRowAsTheyCameSoThatTheyCanBeReadAgain() {
        String header = "\uFEFFsep=;\r\n" + HEADER.replace("otherFluidMl", "text");
        String note = ROW.replace("blood-loss", "note")
                .replace("visual;increment;37,5;", ";;;\"Asked;\r\n\"\"better now\"\"\"");

        Piece piece = pieces(header + ROW.replace("37,5;", "37,5;x") + note).get(1);

        assertThat(piece.format()).isEqualTo(InputFormat.REGISTER);
        assertThat(piece.place()).isEqualTo("row 3");
        assertThat(piece.original().bytes()).asString(UTF_8).isEqualTo(header + note);
        assertThat(pieces(piece.original().bytes())).singleElement().satisfies(it -> {
            assertThat(it.intake()).isEqualTo(piece.intake());
            assertThat(taken(List.of(it)).get(0).data().toString()).contains("Asked;\r\n\"better now\"");
        });
    }

    private static EventEnvelope event(String register) {
        return taken(pieces(register)).get(0);
    }
}
