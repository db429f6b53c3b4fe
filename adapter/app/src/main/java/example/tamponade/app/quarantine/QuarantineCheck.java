package example.tamponade.app.quarantine;

import example.tamponade.app.chain.CommitChain;
import example.tamponade.app.database.Database;
import example.tamponade.app.intake.Piece;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Is what was refused kept as it came? */
public final class QuarantineCheck {

    private final JdbcClient jdbc;
    private final CommitChain commits;

    /** Checks the quarantine in that database. */
    public QuarantineCheck(Database database) {
        this.jdbc = database.jdbc();
        this.commits = new CommitChain(database);
    }

    /**
     * What a check found.
     *
     * @param entries how many entries there are
     * @param faults every fault; empty when everything is kept as it came
     */
    public record Result(long entries, List<String> faults) {}

    /** Checks every original against its digest, every entry's history, and all of them against the chain of commits. */
    public Result check() {
        List<String> faults = new ArrayList<>();
        jdbc.sql("select digest, encoding, content from refused_original").query(row -> {
            KeptBytes kept = new KeptBytes(row.getString(2), row.getString(3));
            if (!Piece.digest(kept.bytes()).equals(row.getString(1))) {
                faults.add("quarantine, original " + row.getString(1) + ": is not what came");
            }
        });
        jdbc.sql("""
                        select q.id from quarantine q
                        left join quarantine_step s on s.quarantine_id = q.id and s.step = 0
                        left join refused_original o on o.digest = q.digest
                        where s.step is null or o.digest is null
                        """).query(row -> {
            faults.add("quarantine, entry " + row.getString(1) + ": its refusal or its original is not there");
        });
        Set<PieceKey> there = entries();
        long count = there.size();
        checkAgainstCommits(there, faults);
        return new Result(count, faults);
    }

    private Set<PieceKey> entries() {
        Set<PieceKey> there = new HashSet<>();
        jdbc.sql("select digest, format, part from quarantine").query(row -> {
            there.add(new PieceKey(row.getString(1), row.getString(2), row.getString(3)));
        });
        return there;
    }

    private void checkAgainstCommits(Set<PieceKey> there, List<String> faults) {
        commits.each(
                commit -> commit.content()
                        .lines()
                        .map(PieceKey::ofLine)
                        .filter(it -> it != null && !there.remove(it))
                        .forEach(it -> faults.add("quarantine: an entry of the original " + it.digest() + " is gone")),
                broken -> {});
        there.forEach(it -> faults.add("quarantine: no commit wrote the entry of the original " + it.digest()));
    }
}
