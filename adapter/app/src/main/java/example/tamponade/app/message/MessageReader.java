package example.tamponade.app.message;

import example.tamponade.app.intake.EventAssembly;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.LongPieces;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.ReasonCode;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Reads one message: its header first, which decides whether it is taken at all, then group by group. */
final class MessageReader {

    // Each group has an answer of its own, all of them at once.
    private static final int MOST_GROUPS = 5000;
    private static final int MOST_SEGMENTS = 30_000;

    private final ObservationCodes codes = new ObservationCodes();
    private final EventAssembly assembly;
    private final Facilities facilities;

    MessageReader(EventReader reader, Facilities facilities) {
        this.assembly = new EventAssembly(reader);
        this.facilities = facilities;
    }

    ReadMessage read(RawMessage raw) {
        return LongPieces.read(raw.original().length(), () -> opened(raw));
    }

    private ReadMessage opened(RawMessage raw) {
        OpenedMessage message = OpenedMessage.of(raw);
        MessageHeader header = message.header();
        // The control id names the message wherever it is read again.
        String place = "message " + (header.controlId().isEmpty() ? raw.number() : header.controlId());
        if (message.parser() == null || !message.refusals().isEmpty()) {
            Piece whole = piece(raw, place, "", new Intake.Refused(message.refusals()));
            return new ReadMessage(header, true, List.of(whole), List.of());
        }
        Intake tooMany = tooMany(message.segments());
        return tooMany == null
                ? groups(raw, place, header, MessageGroups.of(message.parser(), message.segments()))
                : new ReadMessage(header, true, List.of(piece(raw, place, "", tooMany)), List.of());
    }

    private static @Nullable Intake tooMany(List<String> segments) {
        long groups = segments.stream().filter(it -> it.startsWith("OBR")).count();
        return groups <= MOST_GROUPS && segments.size() <= MOST_SEGMENTS
                ? null
                : Intake.Refused.of(
                        ReasonCode.TOO_LONG,
                        "",
                        "the message has " + groups + " groups (OBR) and " + segments.size() + " segments; at most "
                                + MOST_GROUPS + " and " + MOST_SEGMENTS + " are taken",
                        "send fewer groups in each message");
    }

    private ReadMessage groups(RawMessage raw, String place, MessageHeader header, MessageGroups groups) {
        GroupReader reader = new GroupReader(codes, assembly, header, new MessageTimes(facilities, header));
        List<Remark> remarks = new ArrayList<>();
        List<Piece> pieces = new ArrayList<>();
        for (ObservationGroup group : groups.groups()) {
            Intake intake = Intake.guarded(() -> reader.read(group, raw.original(), remarks));
            String part = group.place().text();
            pieces.add(piece(raw, place + ", " + part, part, intake));
        }
        if (!groups.refusals().isEmpty()) {
            pieces.add(piece(raw, place, "", new Intake.Refused(groups.refusals())));
        }
        return new ReadMessage(header, false, pieces, remarks);
    }

    private static Piece piece(RawMessage raw, String place, String part, Intake intake) {
        return new Piece(InputFormat.MESSAGE, place, raw.original(), part, intake);
    }
}
