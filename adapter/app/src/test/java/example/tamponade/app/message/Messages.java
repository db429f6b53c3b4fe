package example.tamponade.app.message;

import static java.nio.charset.StandardCharsets.UTF_8;

import example.tamponade.app.Samples;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.intake.Reason;
import example.tamponade.core.protocol.CareProtocol;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** Messages of the invented scenario, and what they are read as. */
final class Messages {

    static final Clock CLOCK = Clock.fixed(Instant.parse("2026-06-01T12:00:00Z"), ZoneOffset.UTC);

    /** The realm's clocks: Fernglade keeps an odd offset from UTC. */
    static final Facilities FACILITIES =
            new Facilities(Map.of("fernglade-hp", new Facilities.Facility(ZoneId.of("+05:45"), null)), null);

    static final MessageFormat FORMAT = new MessageFormat(new EventReader(CareProtocol.standard(), CLOCK), FACILITIES);

    /** A message of one group: 350 mL in a drape, read by a midwife. */
    static final String LOSS = """
            MSH|^~\\&|WARDBOOK|fernglade-hp|TAMPONADE|OMBREL|20260211230100+0545||ORU^R01^ORU_R01|T1|P|2.5.1
            PID|1||OM-000-4471^^^OMBREL^MR
            PV1|1|I|||||||||||||||||FGL-2026-0117
            OBR|1||W1^WARDBOOK|blood-loss^^99TAM|||20260211225800+0545|||||||||||||||20260211230000+0545|||F
            OBX|1|CWE|blood-loss.method^^99TAM||graduated-drape^^99TAM||||||F|||||fg-mw-02^^^^^^midwife
            OBX|2|CWE|blood-loss.reading^^99TAM||running-total^^99TAM||||||F
            OBX|3|ST|blood-loss.collector^^99TAM||drape 1||||||F
            OBX|4|NM|blood-loss.volumeMl^^99TAM||350|mL^^UCUM|||||F
            """;

    /** A message of a monitor with a panel and codes of its own kind: LOINC. */
    static final String VITALS = """
            MSH|^~\\&|BEDMON|fernglade-hp|TAMPONADE|OMBREL|20260211230100+0545||ORU^R01^ORU_R01|T2|P|2.5.1
            PV1|1|I|||||||||||||||||FGL-2026-0117
            OBR|1||B1^BEDMON|VS^Vital signs^99MON|||20260211225800+0545|||||||||||||||20260211225900+0545|||F
            OBX|1|NM|8867-4^Heart rate^LN||117|/min^^UCUM|||||F|||||||fg-mon-1
            OBX|2|NM|8480-6^Systolic blood pressure^LN||102|mm[Hg]^^UCUM|||||F|||||||fg-mon-1
            OBX|3|NM|8462-4^Diastolic blood pressure^LN||64|mm[Hg]^^UCUM|||||F|||||||fg-mon-1
            """;

    private Messages() {}

    static List<Piece> pieces(byte[] input) {
        List<Piece> all = new ArrayList<>();
        try (Pieces pieces = FORMAT.open(new ByteArrayInputStream(input))) {
            for (Piece piece = pieces.next(); piece != null; piece = pieces.next()) {
                all.add(piece);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return all;
    }

    static List<Piece> pieces(String input) {
        return pieces(input.getBytes(UTF_8));
    }

    static Intake.Taken taken(String message) {
        Intake intake = pieces(message).get(0).intake();
        if (intake instanceof Intake.Taken taken) {
            return taken;
        }
        throw new AssertionError(((Intake.Refused) intake).reasons());
    }

    static List<Reason> reasons(String message) {
        return ((Intake.Refused) pieces(message).get(0).intake()).reasons();
    }

    static byte[] sample(String name) {
        try (InputStream in = Samples.class.getResourceAsStream("/example/tamponade/samples/message/" + name)) {
            return in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
