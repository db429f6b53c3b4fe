package example.tamponade.app.intake;

import java.io.IOException;
import java.io.InputStream;
import org.jspecify.annotations.Nullable;

/** One bedside event in JSON, over as many lines as it likes. */
public final class EventDocumentFormat implements EventFormat {

    private final EventReader reader;

    /** Has the event read by that reader. */
    public EventDocumentFormat(EventReader reader) {
        this.reader = reader;
    }

    @Override
    public Pieces open(InputStream in) {
        return new Pieces() {
            private boolean read;

            @Override
            public @Nullable Piece next() throws IOException {
                if (read) {
                    return null;
                }
                read = true;
                Original original = Original.read(in);
                return original.length() == 0
                        ? null
                        : new Piece(InputFormat.EVENT, "the event", original, reader.read(original));
            }

            @Override
            public void close() throws IOException {
                in.close();
            }
        };
    }
}
