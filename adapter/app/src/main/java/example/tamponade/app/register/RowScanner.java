package example.tamponade.app.register;

import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Original;
import java.io.BufferedInputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import org.jspecify.annotations.Nullable;

/**
 * Cuts a register into rows in constant memory, by the quotes of RFC 4180, section 2, rules 5 to 7. A quote that is never
 * closed would make all that follows one cell; such a row is given up to the end of its first line, and reading goes on
 * with the next line, so that no other row is lost with it.
 */
final class RowScanner implements Closeable {

    private static final int END = -1;
    private static final int NONE = -2;
    private static final int[] BYTE_ORDER_MARK = {0xEF, 0xBB, 0xBF};

    private enum Within {
        BEGIN_OF_CELL,
        PLAIN,
        QUOTED,
        AFTER_QUOTE
    }

    private final InputStream in;
    private long number;
    private int ahead = NONE;
    private int aheadAtMark = NONE;

    /** Reads from the stream, which is closed with this. */
    RowScanner(InputStream in) {
        this.in = new BufferedInputStream(in, 1 << 16);
    }

    /**
     * The next row; null at the end.
     *
     * @param separators the characters that end a cell
     */
    @Nullable
    Row next(String separators) throws IOException {
        mark();
        int first = read();
        if (first == END) {
            return null;
        }
        number++;
        Row row = row(first, separators);
        return row == null ? firstLine() : row;
    }

    /** Takes the row that was read last for its first line only; the next row begins with its second line. */
    Row firstLine() throws IOException {
        in.reset();
        ahead = aheadAtMark;
        Original.Builder kept = new Original.Builder();
        int b = read();
        while (b != END && !isLineEnd(b)) {
            kept.add(b);
            b = read();
        }
        lineEnd(b, kept);
        return new Row(number, kept.build(), true, false);
    }

    /** The next row gets the number of this one. */
    void countAgain() {
        number--;
    }

    /** What is left of the input, after what was read of it before. */
    Original rest(Original before) throws IOException {
        Original.Builder all = new Original.Builder();
        all.add(before);
        for (int b = read(); b != END; b = read()) {
            all.add(b);
        }
        return all.build();
    }

    @Override
    public void close() throws IOException {
        in.close();
    }

    private @Nullable Row row(int first, String separators) throws IOException {
        Original.Builder kept = new Original.Builder();
        boolean severalLines = false;
        Within within = Within.BEGIN_OF_CELL;
        int b = first;
        while (b != END && (within == Within.QUOTED || !isLineEnd(b))) {
            boolean byteOrderMark = kept.length() < BYTE_ORDER_MARK.length && b == BYTE_ORDER_MARK[kept.length()];
            Within next = byteOrderMark ? within : after(within, b, separators);
            if (next == null || kept.length() == EventReader.MAX_BYTES) {
                return null;
            }
            severalLines |= isLineEnd(b);
            within = next;
            kept.add(b);
            b = read();
        }
        if (within == Within.QUOTED) {
            return null;
        }
        lineEnd(b, kept);
        return new Row(number, kept.build(), false, severalLines);
    }

    private static @Nullable Within after(Within within, int b, String separators) {
        boolean separator = separators.indexOf(b) >= 0;
        return switch (within) {
            case BEGIN_OF_CELL -> b == '"' ? Within.QUOTED : separator ? Within.BEGIN_OF_CELL : Within.PLAIN;
            case PLAIN -> separator ? Within.BEGIN_OF_CELL : Within.PLAIN;
            case QUOTED -> b == '"' ? Within.AFTER_QUOTE : Within.QUOTED;
            case AFTER_QUOTE -> b == '"' ? Within.QUOTED : separator ? Within.BEGIN_OF_CELL : null;
        };
    }

    private static boolean isLineEnd(int b) {
        return b == '\n' || b == '\r';
    }

    private void lineEnd(int b, Original.Builder kept) throws IOException {
        if (b == END) {
            return;
        }
        kept.add(b);
        if (b == '\r') {
            int next = read();
            if (next == '\n') {
                kept.add(next);
            } else {
                ahead = next;
            }
        }
    }

    // A row is read at most this far before it is given up.
    private void mark() {
        in.mark(EventReader.MAX_BYTES + 4);
        aheadAtMark = ahead;
    }

    private int read() throws IOException {
        if (ahead != NONE) {
            int b = ahead;
            ahead = NONE;
            return b;
        }
        return in.read();
    }
}
