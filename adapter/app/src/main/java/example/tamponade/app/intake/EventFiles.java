package example.tamponade.app.intake;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Reads files of events, one a line, and hands on what was taken and what was refused. */
public final class EventFiles {

    /** Learns of what happens to each line. */
    public interface Watcher {

        /** A line was read, whatever became of it. */
        void lineRead();

        /**
         * Something was refused.
         *
         * @param line the line; null when the file as a whole is refused
         */
        void refused(Path file, @Nullable EventLine line, List<Reason> reasons) throws IOException;
    }

    private final EventReader reader;
    private final Watcher watcher;

    /** Reads with that reader and tells that watcher. */
    public EventFiles(EventReader reader, Watcher watcher) {
        this.reader = reader;
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
        try (EventLines lines = new EventLines(Files.newInputStream(file))) {
            for (EventLine line = lines.next(); line != null; line = lines.next()) {
                watcher.lineRead();
                if (!line.blank()) {
                    empty = false;
                    take(file, line, events);
                }
            }
        }
        if (empty) {
            Reason reason = new Reason(
                    ReasonCode.EMPTY_INPUT, "", "the file holds no event", "check that it was written out fully");
            watcher.refused(file, null, List.of(reason));
        }
    }

    private void take(Path file, EventLine line, TakenEvents events) throws IOException {
        Intake intake = reader.read(line);
        if (intake instanceof Intake.Refused refused) {
            watcher.refused(file, line, refused.reasons());
        } else if (intake instanceof Intake.Taken taken && !events.add(taken)) {
            watcher.refused(file, line, List.of(Reason.conflict(taken.event().eventId())));
        }
    }
}
