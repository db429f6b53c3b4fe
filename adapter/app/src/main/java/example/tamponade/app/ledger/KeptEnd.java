package example.tamponade.app.ledger;

import example.tamponade.app.chain.CommitChain;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * How far a chain had come.
 *
 * @param caseKey the case or facility; {@link #COMMITS} for the chain of all commits, {@link #ACCESS} for the access log
 * @param caseSeq how many events, or commits, it had
 * @param link the last one's link, lower-case hex
 */
public record KeptEnd(String caseKey, long caseSeq, String link) {

    /** What stands for the chain of all commits; no case's or facility's key is written like this. */
    public static final String COMMITS = "commits";

    /** What stands for the access log. */
    public static final String ACCESS = "access";

    private static final Pattern LINE = Pattern.compile("case ([0-9a-f]*) (\\d+) (.*)", Pattern.DOTALL);

    /** The end of the chain of commits at that one. */
    public static KeptEnd of(CommitChain.Commit commit) {
        return new KeptEnd(COMMITS, commit.number(), commit.link());
    }

    /** The end of the access log at that entry. */
    public static KeptEnd ofAccess(CommitChain.Commit entry) {
        return new KeptEnd(ACCESS, entry.number(), entry.link());
    }

    /** The line of the chain of commits that names this end. */
    String line() {
        return "case " + link + " " + caseSeq + " " + caseKey;
    }

    /** The end that a line of the chain of commits names; null when it names another thing. */
    static @Nullable KeptEnd ofLine(String line) {
        Matcher end = LINE.matcher(line);
        return end.matches() ? new KeptEnd(end.group(3), Long.parseLong(end.group(2)), end.group(1)) : null;
    }
}
