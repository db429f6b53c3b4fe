package example.tamponade.app.message;

import example.tamponade.app.intake.EventAssembly;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import java.util.ArrayList;
import java.util.List;

/** Reads one message: its header first, which decides whether it is taken at all, then group by group. */
final class MessageReader {

    private final ObservationCodes codes = new ObservationCodes();
    private final EventAssembly assembly;
    private final Facilities facilities;

    MessageReader(EventReader reader, Facilities facilities) {
        this.assembly = new EventAssembly(reader);
        this.facilities = facilities;
    }

    ReadMessage read(RawMessage raw) {
        OpenedMessage message = OpenedMessage.of(raw);
        MessageHeader header = message.header();
        // The control id names the message wherever it is read again.
        String place = "message " + (header.controlId().isEmpty() ? raw.number() : header.controlId());
        if (message.parser() == null || !message.refusals().isEmpty()) {
            Piece whole = piece(raw, place, "", new Intake.Refused(message.refusals()));
            return new ReadMessage(header, true, List.of(whole), List.of());
        }
        return groups(raw, place, header, MessageGroups.of(message.parser(), message.segments()));
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
