package example.tamponade.app.register;

import static java.nio.charset.StandardCharsets.UTF_8;

import example.tamponade.app.intake.EventAssembly;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.Facilities.DateOrder;
import example.tamponade.app.intake.Facilities.Facility;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.intake.Reason;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** Reads registers for tests, with the facilities of the samples and two that write slashes. */
final class Registers {

    static final EventReader READER = new EventReader(
            CareProtocol.standard(), Clock.fixed(Instant.parse("2026-06-01T12:00:00Z"), ZoneOffset.UTC));

    static final RegisterFormat FORMAT = new RegisterFormat(
            new EventAssembly(READER),
            new Facilities(
                    Map.of(
                            "fernglade-hp", new Facility(ZoneId.of("+05:45"), null),
                            "petrel-holm-ch", new Facility(ZoneId.of("+12:45"), null),
                            "day-first-hp", new Facility(ZoneId.of("+05:45"), DateOrder.DAY_MONTH),
                            "month-first-hp", new Facility(ZoneId.of("+05:45"), DateOrder.MONTH_DAY),
                            "summer-hp", new Facility(ZoneId.of("Europe/Berlin"), null)),
                    null));

    private Registers() {}

    static List<Piece> pieces(byte[] register) {
        List<Piece> all = new ArrayList<>();
        try (Pieces pieces = FORMAT.open(new ByteArrayInputStream(register))) {
            for (Piece piece = pieces.next(); piece != null; piece = pieces.next()) {
                all.add(piece);
            }
            return all;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static List<Piece> pieces(String register) {
        return pieces(register.getBytes(UTF_8));
    }

    static List<EventEnvelope> taken(List<Piece> pieces) {
        return pieces.stream()
                .map(Piece::intake)
                .filter(Intake.Taken.class::isInstance)
                .map(it -> ((Intake.Taken) it).event())
                .toList();
    }

    static List<Reason> refused(Piece piece) {
        return ((Intake.Refused) piece.intake()).reasons();
    }

    /** For each piece its place and what became of it: taken, or the codes of the reasons. */
    static List<String> outcomes(List<Piece> pieces) {
        return pieces.stream()
                .map(it -> it.place() + " "
                        + (it.intake() instanceof Intake.Refused refused
                                ? String.join(
                                        " ",
                                        refused.reasons().stream()
                                                .map(reason -> reason.code().code())
                                                .toList())
                                : "taken"))
                .toList();
    }
}
