package example.tamponade.app.resources;

import example.tamponade.app.intake.EventLine;
import example.tamponade.app.intake.EventLines;
import example.tamponade.app.intake.EventReader;
import java.io.BufferedInputStream;
import java.io.ByteArrayInputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import org.jspecify.annotations.Nullable;

/**
 * The resources of an input, one after the other, in constant memory. When more is opened on the first line than closed, the
 * input is a document; otherwise each line is read by itself, and one that is broken leaves the others whole.
 */
public final class ResourceParts implements Closeable {

    private final BufferedInputStream in;
    private @Nullable EventLines lines;
    private @Nullable DocumentParts document;
    private boolean begun;

    /** Reads the stream, which is closed with this. */
    public ResourceParts(InputStream in) {
        this.in = new BufferedInputStream(in, 1 << 16);
    }

    /** The next part; null at the end. */
    public @Nullable ResourcePart next() throws IOException {
        if (!begun) {
            begun = true;
            begin();
        }
        while (true) {
            ResourcePart part = document == null ? null : document.next();
            if (part != null || lines == null) {
                return part;
            }
            EventLine line = lines.next();
            if (line == null) {
                return null;
            }
            if (line.original().tooLongForAnEvent()) {
                String place = "line " + line.number();
                return new ResourcePart(
                        place,
                        line.original(),
                        DocumentParts.tooLong(line.original().length()).at(place));
            }
            document = new DocumentParts(line.original().open(), "line " + line.number());
        }
    }

    private void begin() throws IOException {
        in.mark(EventReader.MAX_BYTES + 1);
        EventLine first = firstLine();
        in.reset();
        if (first != null
                && (first.original().tooLongForAnEvent()
                        || goesOn(first.original().bytes()))) {
            document = new DocumentParts(in, "");
        } else {
            lines = new EventLines(in);
        }
    }

    // No more than may be reset: the line is read from its own bytes, not from the stream.
    private @Nullable EventLine firstLine() throws IOException {
        byte[] beginning = in.readNBytes(EventReader.MAX_BYTES + 1);
        EventLines beginnings = new EventLines(new ByteArrayInputStream(beginning));
        EventLine line = beginnings.next();
        while (line != null && line.blank()) {
            line = beginnings.next();
        }
        return line;
    }

    // Whether more is opened on the line than closed.
    private static boolean goesOn(byte[] line) {
        int open = 0;
        boolean text = false;
        for (int i = 0; i < line.length; i++) {
            if (text && line[i] == '\\') {
                i++;
            } else if (line[i] == '"') {
                text = !text;
            } else if (!text) {
                open += line[i] == '{' || line[i] == '[' ? 1 : line[i] == '}' || line[i] == ']' ? -1 : 0;
            }
        }
        return open > 0;
    }

    @Override
    public void close() throws IOException {
        in.close();
    }
}
