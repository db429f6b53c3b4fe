package example.tamponade.app.message;

import static example.tamponade.app.message.Messages.LOSS;
import static example.tamponade.app.message.Messages.VITALS;
import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Reason;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What is refused, with its place and the remedy; tables and sections are those of HL7 version 2.5.1. */
class MessageRefusalTest {

    @ParameterizedTest
    @CsvSource(delimiter = '~', quoteCharacter = '`', textBlock = """
            mL^^UCUM            ~                      ~ wrong-unit          ~ OBR 1, OBX 4, field 6  ~ UCUM unit in OBX-6
            mL^^UCUM            ~ mmHg                 ~ wrong-unit          ~ OBR 1, OBX 4, field 6  ~ mL
            mL^^UCUM            ~ ml^^99XYZ            ~ wrong-unit          ~ OBR 1, OBX 4, field 6  ~ UCUM unit in OBX-6
            350|mL              ~ 35O|mL               ~ wrong-type          ~ OBR 1, OBX 4, field 5  ~ number
            350|mL              ~ -350|mL              ~ impossible-value    ~ OBR 1, OBX 4, field 5  ~ outside 0 to 10000
            350|mL              ~ |mL                  ~ missing-property    ~ OBR 1, OBX 4, field 5  ~ OBX-5
            4|NM|               ~ 4|ED|                ~ wrong-type          ~ OBR 1, OBX 4, field 2  ~ NM
            volumeMl^^99TAM     ~ volume^^99TAM        ~ unknown-property    ~ OBR 1, OBX 4, field 3  ~ blood-loss.volumeMl
            blood-loss.volumeMl^^99TAM ~ 55103-0^^LN   ~ unknown-property    ~ OBR 1, OBX 4, field 3  ~ blood-loss.volumeMl
            graduated-drape^^99TAM ~ drape^^99TAM      ~ not-in-list         ~ OBR 1, OBX 1, field 5  ~ graduated-drape
            graduated-drape^^99TAM ~ 1234^^SCT         ~ not-in-list         ~ OBR 1, OBX 1, field 5  ~ 99TAM
            drape 1             ~ drape^1              ~ invalid-value       ~ OBR 1, OBX 3, field 5  ~ \\S\\
            drape 1             ~ drape&1              ~ invalid-value       ~ OBR 1, OBX 3, field 5  ~ \\T\\
            blood-loss^^99TAM   ~ blood-lost^^99TAM    ~ unknown-type        ~ OBR 1, field 4         ~ blood-loss
            20260211225800+0545 ~ 20260211             ~ invalid-value       ~ OBR 1, field 7         ~ 202602111841+0545
            20260211225800+0545 ~ 20260230225800+0545  ~ invalid-value       ~ OBR 1, field 7         ~ exists
            FGL-2026-0117       ~                      ~ missing-property    ~ PV1 1, field 19        ~ PV1-19
            ^^^^^^midwife       ~                      ~ missing-property    ~ OBR 1, OBX 1, field 16 ~ component 7
            fg-mw-02^^^^^^midwife ~                    ~ missing-property    ~ OBR 1                  ~ OBX-16
            ^^^^^^midwife       ~ ^^^^^^wizard          ~ not-in-list         ~ OBR 1, OBX 1, field 16 ~ midwife
            UCUM|||||F          ~ UCUM|||||P           ~ not-supported       ~ OBR 1, OBX 4, field 11 ~ final
            UCUM|||||F          ~ UCUM|||||            ~ not-supported       ~ OBR 1, OBX 4, field 11 ~ final
            `|||F\nOBX|1`       ~ `|||P\nOBX|1`        ~ not-supported       ~ OBR 1, field 25        ~ final
            fernglade-hp        ~                      ~ missing-property    ~ MSH 1, field 4         ~ MSH-4
            """)
    void refusesWithPlaceAndRemedy(String right, String wrong, String code, String place, String words) {
        String message = LOSS.replace(right.replace("\\n", "\n"), wrong == null ? "" : wrong.replace("\\n", "\n"));

        assertThat(Messages.reasons(message)).anySatisfy(reason -> {
            assertThat(reason.code().code()).isEqualTo(code);
            assertThat(reason.place()).isEqualTo(place);
            assertThat(reason.message() + " " + reason.remedy()).contains(words);
        });
        assertThat(Messages.reasons(message))
                .allSatisfy(it -> assertThat(it.remedy()).isNotBlank());
    }

    // Table 0085 has other statuses than those that are taken: not final, not asked, or final without the result.
    @ParameterizedTest
    @ValueSource(strings = {"I", "N", "O", "P", "R", "S", "U", "f", "?"})
    void refusesWhatIsNotFinal(String status) {
        assertThat(Messages.reasons(VITALS.replace("117|/min^^UCUM|||||F", "117|/min^^UCUM|||||" + status)))
                .extracting(it -> it.code().code() + " at " + it.place())
                .containsExactly("not-supported at OBR 1, OBX 1, field 11");
    }

    // Table 0123 likewise.
    @ParameterizedTest
    @ValueSource(strings = {"O", "I", "S", "A", "P", "R", "X", "Y", "Z"})
    void refusesAnOrderThatIsNotFinal(String status) {
        assertThat(Messages.reasons(VITALS.replace("|||F\nOBX|1", "|||" + status + "\nOBX|1")))
                .extracting(it -> it.code().code() + " at " + it.place())
                .containsExactly("not-supported at OBR 1, field 25");
    }

    @Test
    void refusesTwoTimesOrTwoObserversInOneGroup() {
        String two = VITALS.replace("|||||||fg-mon-1", "|||20260211225800+0545||fg-mw-02^^^^^^midwife")
                .replace(
                        "||64|mm[Hg]^^UCUM|||||F|||20260211225800+0545||fg-mw-02",
                        "||64|mm[Hg]^^UCUM|||||F|||20260211225900+0545||fg-mw-05");

        assertThat(Messages.reasons(two))
                .extracting(it -> it.code().code() + " at " + it.place())
                .containsExactly("invalid-value at OBR 1, OBX 3, field 14", "invalid-value at OBR 1, OBX 3, field 16");
    }

    @Test
    void aCorrectionMustSayWhichEntryItChanges() {
        assertThat(Messages.reasons(LOSS.replace("W1^WARDBOOK", "").replace("|||F\nOBX|1", "|||C\nOBX|1")))
                .extracting(it -> it.code().code() + " at " + it.place())
                .containsExactly("missing-property at OBR 1, field 3");
    }

    @Test
    void refusesOneGroupAndTakesTheOthers() {
        String three = LOSS
                + LOSS.substring(LOSS.indexOf("OBR")).replace("W1^", "W2^").replace("350|mL^^UCUM", "350|")
                + LOSS.substring(LOSS.indexOf("OBR")).replace("W1^", "W3^");

        List<Piece> pieces = Messages.pieces(three);

        assertThat(pieces)
                .extracting(Piece::place)
                .containsExactly("message T1, OBR 1", "message T1, OBR 2", "message T1, OBR 3");
        assertThat(pieces.get(0).intake()).isInstanceOf(Intake.Taken.class);
        // Segments are counted within the message, as ERR-2.2 does (2.A.28).
        assertThat(((Intake.Refused) pieces.get(1).intake()).reasons())
                .extracting(Reason::place)
                .containsExactly("OBR 2, OBX 8, field 6");
        assertThat(pieces.get(2).intake()).isInstanceOf(Intake.Taken.class);
    }

    // The abstract syntax of ORU^R01 (7.3.1): an OBX stands behind its OBR; behind a SPM it tells of the specimen.
    @Test
    void refusesObservationsThatBelongToNoOrder() {
        String stray =
                LOSS.replace("OBR|1|", "OBX|1|NM|8867-4^^LN||90|/min^^UCUM|||||F\nOBR|1|") + "SPM|1\nOBX|1|ST|x||y\n";

        List<Piece> pieces = Messages.pieces(stray);

        assertThat(pieces.get(0).intake()).isInstanceOf(Intake.Taken.class);
        assertThat(((Intake.Refused) pieces.get(1).intake()).reasons())
                .extracting(it -> it.code().code() + " at " + it.place())
                .containsExactly("malformed-message at OBX 1", "malformed-message at OBX 6");
    }

    @Test
    void aPatientWithoutVisitDoesNotInheritTheOneBefore() {
        String two = LOSS + "PID|1||OM-000-4472^^^OMBREL^MR\n"
                + LOSS.substring(LOSS.indexOf("OBR")).replace("W1^", "W2^");

        assertThat(((Intake.Refused) Messages.pieces(two).get(1).intake()).reasons())
                .extracting(Reason::place)
                .containsExactly("PV1 1, field 19");
    }

    @ParameterizedTest
    @ValueSource(strings = {"ORU^R01^ORU_R01|T1|P|2.5.1", "MSH|^~\\&|", "OBR|"})
    void refusesAMessageThatIsNone(String cut) {
        assertThat(Messages.pieces(LOSS.replace(cut, ""))).singleElement().satisfies(it -> {
            assertThat(it.intake()).isInstanceOf(Intake.Refused.class);
            assertThat(it.original().bytes()).isEqualTo(LOSS.replace(cut, "").getBytes(UTF_8));
        });
    }

    @Test
    void refusesBytesThatAreNotInTheCharacterSet() {
        byte[] latin = LOSS.replace("drape 1", "Schüssel").getBytes(ISO_8859_1);

        assertThat(((Intake.Refused) Messages.pieces(latin).get(0).intake()).reasons())
                .extracting(it -> it.code().code())
                .containsExactly("wrong-encoding");
        assertThat(Messages.reasons(LOSS.replace("|2.5.1", "|2.5.1||||||ISO IR87")))
                .extracting(it -> it.code().code() + " at " + it.place())
                .containsExactly("not-supported at MSH 1, field 18");
    }

    @Test
    void refusesAMessageOfTenMegabytesAndReadsTheNext() {
        String huge = LOSS + "NTE|1||" + "x".repeat(10 << 20) + "\n";

        List<Piece> pieces = Messages.pieces(huge + VITALS);

        assertThat(((Intake.Refused) pieces.get(0).intake()).reasons())
                .extracting(it -> it.code().code())
                .containsExactly("too-long");
        assertThat(pieces.get(0).original().bytes()).isEqualTo(huge.getBytes(UTF_8));
        assertThat(pieces.get(1).intake()).isInstanceOf(Intake.Taken.class);
    }
}
