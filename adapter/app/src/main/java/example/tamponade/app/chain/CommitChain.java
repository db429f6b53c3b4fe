package example.tamponade.app.chain;

import example.tamponade.app.database.Database;
import example.tamponade.app.intake.Piece;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * Which cases and refusals were ever written down? Every commit adds a record of what it wrote, chained by digests, so that
 * a case or a refusal that is gone without a trace of its own is still named here. Its end is one digest over everything.
 */
public final class CommitChain {

    private static final String BEFORE_THE_FIRST = "";

    private final Database database;
    private final JdbcClient jdbc;
    private final String table;

    /** The chain of commits in that database. */
    public CommitChain(Database database) {
        this(database, "commit_chain");
    }

    private CommitChain(Database database, String table) {
        this.database = database;
        this.jdbc = database.jdbc();
        this.table = table;
    }

    /** The entries of the access log in that database, chained in the same way. */
    public static CommitChain ofAccess(Database database) {
        return new CommitChain(database, "access_log");
    }

    /**
     * A record of the chain.
     *
     * @param number its place, from 1 without gaps
     * @param content what was written, a line for each case and each refusal
     * @param link SHA-256, lower-case hex, of the link before, the number and the content, with line ends between
     */
    public record Commit(long number, String content, String link) {

        static Commit after(Commit before, String content) {
            long number = before.number + 1;
            return new Commit(number, content, link(before.link, number, content));
        }

        static Commit none() {
            return new Commit(0, "", BEFORE_THE_FIRST);
        }

        private static String link(String before, long number, String content) {
            return Piece.digest(before + "\n" + number + "\n" + content);
        }

        /** Whether it follows that one and is as it was written. */
        public boolean follows(Commit before) {
            return equals(after(before, content));
        }
    }

    /**
     * Adds a record of what the transaction under way writes. From here to its end other adapters wait with theirs, so this
     * comes last.
     *
     * @param lines what was written; nothing is added when there are none
     */
    public void add(List<String> lines) {
        if (!lines.isEmpty()) {
            addEach(List.of(String.join("\n", lines)));
        }
    }

    /** Adds a record for each of these, in the transaction under way, as {@link #add} does for all of them. */
    public void addEach(List<String> contents) {
        if (contents.isEmpty()) {
            return;
        }
        database.dialect().waitForTurn(jdbc, table.replace('_', ' '));
        List<Object[]> rows = new ArrayList<>();
        Commit last = end();
        for (String content : contents) {
            last = Commit.after(last, content);
            rows.add(new Object[] {last.number(), last.content(), last.link()});
        }
        database.batches().batchUpdate("insert into " + table + " (number, content, link) values (?, ?, ?)", rows);
    }

    /** The last record; one with the number 0 when there is none. */
    public Commit end() {
        return jdbc.sql("select number, content, link from " + table + " order by number desc limit 1")
                .query((row, n) -> new Commit(row.getLong(1), row.getString(2), row.getString(3)))
                .optional()
                .orElseGet(Commit::none);
    }

    /** Hands out every record in order, and whether it follows the one before. */
    public void each(Consumer<Commit> record, Consumer<Commit> broken) {
        Commit[] before = {Commit.none()};
        jdbc.sql("select number, content, link from " + table + " order by number")
                .query(row -> {
                    Commit commit = new Commit(row.getLong(1), row.getString(2), row.getString(3));
                    record.accept(commit);
                    if (!commit.follows(before[0])) {
                        broken.accept(commit);
                    }
                    before[0] = commit;
                });
    }
}
