package example.tamponade.app.quarantine;

import example.tamponade.app.intake.Piece;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** What makes a piece the same when it comes again: its bytes, its format and which part of them it is. */
record PieceKey(String digest, String format, String part) {

    private static final Pattern LINE = Pattern.compile("refused ([0-9a-f]+) (\\S+) (.*)", Pattern.DOTALL);

    static PieceKey of(Piece piece) {
        return new PieceKey(piece.original().digest(), piece.format().code(), piece.part());
    }

    /** The line of the chain of commits that names it. */
    String line() {
        return "refused " + digest + " " + format + " " + part;
    }

    /** The piece that a line of the chain of commits names; null when it names another thing. */
    static @Nullable PieceKey ofLine(String line) {
        Matcher piece = LINE.matcher(line);
        return piece.matches() ? new PieceKey(piece.group(1), piece.group(2), piece.group(3)) : null;
    }
}
