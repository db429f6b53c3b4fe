package example.tamponade.app;

import example.tamponade.app.intake.EventFormat;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.intake.Reason;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;

/** Reads inputs in a format, whole. */
public final class Formats {

    /** The reader that the events of every format come down to. */
    public static final EventReader EVENTS = new EventReader(CareProtocol.standard(), Clock.systemUTC());

    private Formats() {}

    /** Every piece of an input. */
    public static List<Piece> pieces(EventFormat format, byte[] input) {
        List<Piece> pieces = new ArrayList<>();
        try (Pieces read = format.open(new ByteArrayInputStream(input))) {
            for (Piece piece = read.next(); piece != null; piece = read.next()) {
                pieces.add(piece);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return pieces;
    }

    /** Every piece of an input. */
    public static List<Piece> pieces(EventFormat format, String input) {
        return pieces(format, input.getBytes(StandardCharsets.UTF_8));
    }

    /** The events of pieces that were all taken. */
    public static List<EventEnvelope> events(List<Piece> pieces) {
        return pieces.stream()
                .map(it -> {
                    if (it.intake() instanceof Intake.Taken taken) {
                        return taken.event();
                    }
                    throw new AssertionError(it.place() + " is refused: " + reasons(it));
                })
                .toList();
    }

    /** Why a piece was refused; empty when it was taken. */
    public static List<Reason> reasons(Piece piece) {
        return piece.intake() instanceof Intake.Refused refused ? refused.reasons() : List.of();
    }
}
