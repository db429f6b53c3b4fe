package example.tamponade.app.message;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.hl7v2.AcknowledgmentCode;
import ca.uhn.hl7v2.DefaultHapiContext;
import ca.uhn.hl7v2.HL7Exception;
import ca.uhn.hl7v2.HapiContext;
import ca.uhn.hl7v2.model.v251.message.ACK;
import ca.uhn.hl7v2.parser.CanonicalModelClassFactory;
import ca.uhn.hl7v2.parser.ParserConfiguration;
import ca.uhn.hl7v2.validation.impl.ValidationContextFactory;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.time.Instant;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

/** Whatever the bytes are, pieces come out, and the same pieces come out of their originals again. */
class MessageProperties {

    private static final HapiContext REFERENCE = new DefaultHapiContext(
            new ParserConfiguration(),
            ValidationContextFactory.noValidation(),
            new CanonicalModelClassFactory("2.5.1"));

    private static final String[] SNIPPETS = {
        "|",
        "^",
        "~",
        "&",
        "\\",
        "\\X00\\",
        "\\F",
        "\"\"",
        "\r",
        "\n",
        "MSH",
        "MSH|^~\\&|",
        "PID|1",
        "PV1",
        "OBR|",
        "OBX|",
        "OBX|1|",
        "SPM",
        "ZZZ|",
        "F",
        "D",
        "X",
        "99TAM",
        "-1e999999",
        "\u0000",
        "\u000b",
        "\u001c\r",
        "ä",
        "CE",
        "NM",
        "TS"
    };

    @Property(tries = 500)
    void anyBytesComeOutAsPieces(@ForAll byte[] bytes) {
        rereads(Messages.pieces(bytes));
    }

    @Property(tries = 500)
    void anyMessageThatWasChangedComesOutAsPieces(@ForAll("changed") String message) {
        List<Piece> pieces = Messages.pieces(message);

        assertThat(pieces).isNotEmpty();
        rereads(pieces);
    }

    @Property(tries = 300)
    void everyAnswerIsAMessageForTheSender(@ForAll("changed") String message) throws HL7Exception, IOException {
        RawMessage raw = new RawMessages(new ByteArrayInputStream(message.getBytes(UTF_8))).next();
        ReadMessage read = Messages.FORMAT.reader().read(raw);
        Acknowledgement answer = new Acknowledgement(AcknowledgmentCode.AE, read.header(), Instant.EPOCH, "1");
        read.pieces().forEach(it -> {
            if (it.intake() instanceof Intake.Refused refused) {
                refused.reasons().forEach(answer::refused);
            }
        });

        ACK parsed = (ACK) REFERENCE.getPipeParser().parse(answer.text());

        assertThat(parsed.getMSA().getMessageControlID().getValue())
                .isEqualTo(
                        read.header().controlId().isEmpty()
                                ? null
                                : read.header().controlId());
    }

    private static void rereads(List<Piece> pieces) {
        for (Piece piece : pieces) {
            assertThat(piece.intake()).isInstanceOfAny(Intake.Taken.class, Intake.Refused.class);
            assertThat(Messages.pieces(piece.original().bytes()))
                    .extracting(Piece::intake)
                    .contains(piece.intake());
        }
    }

    @Provide
    Arbitrary<String> changed() {
        Arbitrary<String> text = Arbitraries.of(Messages.LOSS, Messages.VITALS, Messages.LOSS + Messages.VITALS);
        Arbitrary<String> snippet = Arbitraries.oneOf(
                Arbitraries.of(SNIPPETS), Arbitraries.strings().ofMaxLength(6));
        Arbitrary<List<Change>> changes = Combinators.combine(
                        Arbitraries.doubles().between(0, 1),
                        Arbitraries.integers().between(0, 12),
                        snippet)
                .as(Change::new)
                .list()
                .ofMinSize(1)
                .ofMaxSize(4);
        return Combinators.combine(text, changes).as((whole, all) -> {
            String message = whole;
            for (Change change : all) {
                message = change.of(message);
            }
            return new String(message.getBytes(UTF_8), UTF_8);
        });
    }

    private record Change(double at, int length, String by) {

        String of(String message) {
            int from = (int) (at * message.length());
            int to = Math.min(message.length(), from + length);
            return message.substring(0, from) + by + message.substring(to);
        }
    }
}
