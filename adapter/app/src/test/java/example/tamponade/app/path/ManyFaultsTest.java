package example.tamponade.app.path;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.formats.Formats;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.intake.Reason;
import example.tamponade.core.protocol.CareProtocol;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.time.Clock;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** However much is wrong with an input, what is said of it is bounded, and what it came in is held once. */
class ManyFaultsTest {

    private static final int MANY = 20_000;

    private final Formats formats =
            new Formats(CareProtocol.standard(), new Facilities(Map.of(), ZoneId.of("+05:45")), Clock.systemUTC());

    @Test
    void ofAHeaderOfUnknownNames() throws IOException {
        String header = IntStream.range(0, MANY).mapToObj(it -> "q" + it).collect(Collectors.joining(","));

        assertThat(pieces(InputFormat.REGISTER, header + "\n1\n"))
                .singleElement()
                .satisfies(ManyFaultsTest::isBounded);
    }

    @Test
    void ofAnEventOfUnknownProperties() throws IOException {
        String event =
                IntStream.range(0, MANY).mapToObj(it -> "\"q" + it + "\":1").collect(Collectors.joining(","));

        assertThat(pieces(InputFormat.EVENT, "{" + event + "}")).singleElement().satisfies(ManyFaultsTest::isBounded);
    }

    @Test
    void ofAMessageOfUnknownObservations() throws IOException {
        String message = "MSH|^~\\&|W|f|T|O|20260211230100+0545||ORU^R01^ORU_R01|T1|P|2.5.1\rPV1|1|I\rOBR|1||W^W|x\r"
                + IntStream.range(0, MANY)
                        .mapToObj(it -> "OBX|" + it + "|NM|q" + it + "||1")
                        .collect(Collectors.joining("\r"));

        assertThat(pieces(InputFormat.MESSAGE, message)).singleElement().satisfies(ManyFaultsTest::isBounded);
    }

    @Test
    void theGroupsOfAMessageShareIt() throws IOException {
        String message = "MSH|^~\\&|W|f|T|O|20260211230100+0545||ORU^R01^ORU_R01|T1|P|2.5.1\rPV1|1|I\r"
                + IntStream.range(0, 500)
                        .mapToObj(it -> "OBR|" + it + "||W^W|x\r")
                        .collect(Collectors.joining());

        List<Piece> pieces = pieces(InputFormat.MESSAGE, message);

        assertThat(pieces).hasSize(500);
        Original first = pieces.get(0).original();
        assertThat(pieces).allSatisfy(it -> assertThat(it.original()).isSameAs(first));
        assertThat(pieces).extracting(Piece::part).doesNotHaveDuplicates();
    }

    private static void isBounded(Piece piece) {
        List<Reason> reasons = ((Intake.Refused) piece.intake()).reasons();
        assertThat(reasons).hasSize(Reason.MOST);
        assertThat(reasons.get(Reason.MOST - 1).message()).matches("there are \\d{5} more reasons like these");
    }

    private List<Piece> pieces(InputFormat format, String input) throws IOException {
        List<Piece> pieces = new ArrayList<>();
        try (Pieces read = formats.of(format).open(new ByteArrayInputStream(input.getBytes(UTF_8)))) {
            for (Piece piece = read.next(); piece != null; piece = read.next()) {
                pieces.add(piece);
            }
        }
        return pieces;
    }
}
