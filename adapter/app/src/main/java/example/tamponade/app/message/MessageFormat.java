package example.tamponade.app.message;

import example.tamponade.app.intake.EventFormat;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayDeque;
import java.util.Deque;
import org.jspecify.annotations.Nullable;

/**
 * HL7 version 2.5.1 messages ORU^R01, one or several, with or without a batch envelope. A piece is one OBR with its OBX
 * segments; its original is the message that it came in. Safe for use by several threads.
 */
public final class MessageFormat implements EventFormat {

    private final MessageReader reader;

    /**
     * Reads messages.
     *
     * @param facilities tells the zones of times without offset; facilities are named by MSH-4
     */
    public MessageFormat(EventReader reader, Facilities facilities) {
        this.reader = new MessageReader(reader, facilities);
    }

    @Override
    public Pieces open(InputStream in) {
        RawMessages messages = new RawMessages(in);
        Deque<Piece> ready = new ArrayDeque<>();
        return new Pieces() {
            @Override
            public @Nullable Piece next() throws IOException {
                if (ready.isEmpty()) {
                    RawMessage message = messages.next();
                    if (message != null) {
                        ready.addAll(reader.read(message).pieces());
                    }
                }
                return ready.poll();
            }

            @Override
            public void close() throws IOException {
                messages.close();
            }
        };
    }

    /** The reader of single messages. */
    MessageReader reader() {
        return reader;
    }
}
