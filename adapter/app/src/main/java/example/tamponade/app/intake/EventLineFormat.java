package example.tamponade.app.intake;

import java.io.IOException;
import java.io.InputStream;
import org.jspecify.annotations.Nullable;

/** Bedside events in JSON, one object a line. A line is its own original. */
public final class EventLineFormat implements EventFormat {

    private final EventReader reader;

    /** Has the events read by that reader. */
    public EventLineFormat(EventReader reader) {
        this.reader = reader;
    }

    @Override
    public Pieces open(InputStream in) {
        EventLines lines = new EventLines(in);
        return new Pieces() {
            @Override
            public @Nullable Piece next() throws IOException {
                EventLine line = lines.next();
                while (line != null && line.blank()) {
                    line = lines.next();
                }
                return line == null ? null : piece(line);
            }

            @Override
            public void close() throws IOException {
                lines.close();
            }
        };
    }

    private Piece piece(EventLine line) {
        return new Piece(InputFormat.EVENT, "line " + line.number(), line.original(), reader.read(line.original()));
    }
}
