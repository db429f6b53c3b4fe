package example.tamponade.app.formats;

import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.intake.TakenEvents;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Reads files of events, each in the format that the end of its name tells, and hands on what was taken and what refused. */
public final class EventFiles {

    /** Learns of what happens to each piece. */
    public interface Watcher {

        /** A piece was read, whatever became of it. */
        void pieceRead();

        /**
         * Something was refused.
         *
         * @param piece the piece; null when the file as a whole is refused
         */
        void refused(Path file, @Nullable Piece piece, List<Reason> reasons) throws IOException;
    }

    private final Formats formats;
    private final Watcher watcher;

    /** Reads in those formats and tells that watcher. */
    public EventFiles(Formats formats, Watcher watcher) {
        this.formats = formats;
        this.watcher = watcher;
    }

    /** Reads every file in turn. */
    public TakenEvents read(List<Path> files) throws IOException {
        TakenEvents events = new TakenEvents();
        for (Path file : files) {
            read(file, events);
        }
        return events;
    }

    private void read(Path file, TakenEvents events) throws IOException {
        boolean empty = true;
        try (Pieces pieces = formats.ofFile(file).open(Files.newInputStream(file))) {
            for (Piece piece = pieces.next(); piece != null; piece = pieces.next()) {
                watcher.pieceRead();
                empty = false;
                take(file, piece, events);
            }
        }
        if (empty) {
            Reason reason = new Reason(
                    ReasonCode.EMPTY_INPUT, "", "the file holds no event", "check that it was written out fully");
            watcher.refused(file, null, List.of(reason));
        }
    }

    private void take(Path file, Piece piece, TakenEvents events) throws IOException {
        if (piece.intake() instanceof Intake.Refused refused) {
            watcher.refused(file, piece, refused.reasons());
        } else if (piece.intake() instanceof Intake.Taken taken) {
            Reason reason = events.add(taken);
            if (reason != null) {
                watcher.refused(file, piece, List.of(reason));
            }
        }
    }
}
