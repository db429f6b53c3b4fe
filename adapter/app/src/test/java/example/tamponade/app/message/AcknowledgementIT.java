package example.tamponade.app.message;

import static example.tamponade.app.message.Messages.LOSS;
import static example.tamponade.app.message.Messages.VITALS;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import ca.uhn.hl7v2.DefaultHapiContext;
import ca.uhn.hl7v2.HL7Exception;
import ca.uhn.hl7v2.HapiContext;
import ca.uhn.hl7v2.model.Message;
import ca.uhn.hl7v2.model.v251.message.ACK;
import ca.uhn.hl7v2.model.v251.segment.ERR;
import ca.uhn.hl7v2.parser.CanonicalModelClassFactory;
import ca.uhn.hl7v2.validation.impl.ValidationContextFactory;
import example.tamponade.app.access.TestCaller;
import example.tamponade.app.database.Database;
import example.tamponade.app.ledger.Ledger;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What the sender is told (HL7 2.5.1, 2.9.2 and 2.15), read by the HL7 library with its own validation, over the server's
 * path of events.
 */
class AcknowledgementIT {

    // Strict, unlike ours: a reference for what a receiver of the answers demands.
    private static final HapiContext REFERENCE = new DefaultHapiContext(new CanonicalModelClassFactory("2.5.1"));

    @TempDir
    private Path data;

    private TestPath server;
    private MessageReceiver receiver;

    @BeforeEach
    void start() {
        server = TestPath.in(data);
        receiver = server.receiver();
    }

    @AfterEach
    void stop() {
        server.close();
    }

    // Table 0008: AA, application accept.
    @Test
    void acceptsWhenEveryEventIsStoredAndWhenItWasBefore() throws Exception {
        for (String time : List.of("first", "again")) {
            ACK ack = answer(LOSS);

            assertThat(ack.getMSA().getAcknowledgmentCode().getValue()).as(time).isEqualTo("AA");
            assertThat(ack.getMSA().getMessageControlID().getValue()).isEqualTo("T1");
            assertThat(ack.getERRReps()).isZero();
        }
        assertThat(server.bean(Ledger.class).entries("case/fernglade-hp/FGL-2026-0117", 0, 100))
                .hasSize(1);
    }

    // MSH of the answer: sender and receiver changed places (2.9.2.2), message type ACK^R01^ACK (2.15.9.9).
    @Test
    void addressesTheAnswerToTheSender() throws Exception {
        ACK ack = answer(LOSS);

        assertThat(ack.getMSH().getReceivingApplication().getNamespaceID().getValue())
                .isEqualTo("WARDBOOK");
        assertThat(ack.getMSH().getReceivingFacility().getNamespaceID().getValue())
                .isEqualTo("fernglade-hp");
        assertThat(ack.getMSH().getSendingApplication().getNamespaceID().getValue())
                .isEqualTo("TAMPONADE");
        assertThat(ack.getMSH().getMessageType().encode()).isEqualTo("ACK^R01^ACK");
        assertThat(ack.getMSH().getMessageControlID().getValue()).isNotBlank().hasSizeLessThanOrEqualTo(20);
        assertThat(answer(LOSS).getMSH().getMessageControlID().getValue())
                .isNotEqualTo(ack.getMSH().getMessageControlID().getValue());
    }

    // Table 0008: AE, application error. ERR-2 ERL, ERR-3 table 0357, ERR-4 table 0516.
    @Test
    void namesEachReasonWithItsPlace() throws Exception {
        String three = LOSS.replace("350|mL^^UCUM", "350|").replace("drape^^99TAM", "drapes^^99TAM")
                + VITALS.substring(VITALS.indexOf("OBR")).replace("^^^^^^", "");

        ACK ack = answer(three);

        assertThat(ack.getMSA().getAcknowledgmentCode().getValue()).isEqualTo("AE");
        assertThat(errors(ack))
                .containsExactlyInAnyOrder(
                        "OBX^4^6 103^Table value not found^HL70357 E wrong-unit",
                        "OBX^1^5 103^Table value not found^HL70357 E not-in-list");
        assertThat(ack.getERR(0).getDiagnosticInformation().getValue()).isEqualTo("the number has no unit");
        assertThat(ack.getERR(0).getUserMessage().getValue()).contains("UCUM unit in OBX-6");
        assertThat(server.bean(Ledger.class).entries("case/fernglade-hp/FGL-2026-0117", 0, 100))
                .hasSize(1);
    }

    // Table 0357: 205, duplicate key identifier.
    @Test
    void refusesAnotherResultUnderTheSameNumber() throws Exception {
        answer(LOSS);

        ACK ack = answer(LOSS.replace("350|", "360|"));

        assertThat(ack.getMSA().getAcknowledgmentCode().getValue()).isEqualTo("AE");
        assertThat(errors(ack))
                .singleElement()
                .asString()
                .contains("205^Duplicate key identifier")
                .contains("conflict");
    }

    // Table 0008: AR, application reject; table 0357: 200 message type, 201 event code, 202 processing id, 203 version
    // id.
    @ParameterizedTest
    @CsvSource(delimiter = ';', textBlock = """
            ORU^R01^ORU_R01 ; ADT^A01^ADT_A01 ; 200 ; MSH^1^9^1^1
            ORU^R01^ORU_R01 ; ORU^R30^ORU_R30 ; 201 ; MSH^1^9^1^2
            |P|2.5.1        ; |T|2.5.1        ; 202 ; MSH^1^11
            |P|2.5.1        ; |P|2.3          ; 203 ; MSH^1^12
            |T1|            ; ||              ; 101 ; MSH^1^10
            |fernglade-hp|  ; ||              ; 101 ; MSH^1^4
            MSH|^~          ; MSH|^^          ; 100 ; MSH^1
            """)
    void rejectsMessagesThatItIsNotFor(String right, String wrong, String code, String place) throws Exception {
        ACK ack = answer(LOSS.replace(right, wrong));

        assertThat(ack.getMSA().getAcknowledgmentCode().getValue()).isEqualTo("AR");
        assertThat(errors(ack)).singleElement().asString().startsWith(place + " " + code + "^");
        assertThat(server.bean(Ledger.class).caseKeys()).isEmpty();
    }

    @Test
    void rejectsWhatIsNoMessage() throws Exception {
        assertThat(answer("").getMSA().getAcknowledgmentCode().getValue()).isEqualTo("AR");
        assertThat(answer("good evening").getMSA().getAcknowledgmentCode().getValue())
                .isEqualTo("AR");
        assertThat(answer(LOSS.replace("|T1|", "|T\0001|"))
                        .getMSA()
                        .getMessageControlID()
                        .getValue())
                .isNull();
    }

    // Table 0516: W, the transaction was successful, but there may be issues.
    @Test
    void saysWhatWasPassedOver() throws Exception {
        ACK ack = answer(VITALS.replace("||117|/min^^UCUM|||||F", "||||||||X"));

        assertThat(ack.getMSA().getAcknowledgmentCode().getValue()).isEqualTo("AA");
        assertThat(errors(ack)).containsExactly("OBX^1^11 0^Message accepted^HL70357 W null");
    }

    // 2.9.2.2: AR also when it fails for reasons unrelated to content, as an internal error: the sender sends again.
    @Test
    void acceptsNothingWhenTheDatabaseIsGone() throws Exception {
        server.bean(Database.class).close();

        MessageReceiver.Answer answer =
                receiver.take(TestCaller.SENDER, new ByteArrayInputStream(LOSS.getBytes(UTF_8)));

        ACK ack = parsed(answer.text());
        assertThat(answer.failed()).isTrue();
        assertThat(ack.getMSA().getAcknowledgmentCode().getValue()).isEqualTo("AR");
        assertThat(errors(ack)).singleElement().asString().contains("207^Application internal error");
    }

    @Test
    void answersEachOfSeveralMessages() throws Exception {
        String answers = receiver.take(TestCaller.SENDER, new ByteArrayInputStream((LOSS + VITALS).getBytes(UTF_8)))
                .text();

        assertThat(answers.split("(?=MSH\\|)")).hasSize(2);
    }

    @Test
    void theReferenceRefusesAnAnswerThatIsNone() {
        assertThrows(
                HL7Exception.class, () -> parsed("MSH|^~\\&|A|B|C|D|yesterday||ACK^R01^ACK|1|P|2.5.1\rMSA|AA|T1\r"));
    }

    private ACK answer(String message) throws HL7Exception, IOException {
        return parsed(receiver.take(TestCaller.SENDER, new ByteArrayInputStream(message.getBytes(UTF_8)))
                .text());
    }

    private static ACK parsed(String text) throws HL7Exception {
        REFERENCE.setValidationContext(ValidationContextFactory.defaultValidation());
        Message parsed = REFERENCE.getPipeParser().parse(text);
        return (ACK) parsed;
    }

    private static List<String> errors(ACK ack) throws HL7Exception {
        List<String> errors = new ArrayList<>();
        for (ERR err : ack.getERRAll()) {
            errors.add((err.getErrorLocationReps() == 0
                            ? ""
                            : err.getErrorLocation(0).encode()) + " "
                    + err.getHL7ErrorCode().encode() + " " + err.getSeverity().getValue() + " "
                    + err.getApplicationErrorCode().getIdentifier().getValue());
        }
        return errors;
    }
}
