package example.tamponade.app.ledger;

import example.tamponade.app.chain.CommitChain;
import example.tamponade.app.database.Database;
import example.tamponade.app.intake.Piece;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * Is the ledger as it was written? Computes every link anew and compares. It finds a row that was changed, left out, put in
 * or moved, a case that is gone whole, and an original that is not what came. It reads what stands when it is made: within
 * one transaction. Whoever can write to the database can also rewrite a whole chain; only
 * case ends that were kept elsewhere show that.
 */
public final class ChainCheck {

    private static final Pattern FORMER = Pattern.compile("case/[^/]*");

    private final JdbcClient jdbc;
    private final CommitChain commits;
    private final CommitChain access;
    private final Map<String, KeptEnd> ends = new LinkedHashMap<>();

    /** Checks the ledger in that database. */
    public ChainCheck(Database database) {
        this.jdbc = database.jdbc();
        this.commits = new CommitChain(database);
        this.access = CommitChain.ofAccess(database);
    }

    /** The keys of everything that has rows, an end or a commit, in order. */
    public List<String> caseKeys() {
        TreeSet<String> keys = new TreeSet<>(jdbc.sql("""
                        select case_key from case_head where case_seq > 0 union select case_key from ledger
                        union select case_key from former_case_head where case_seq > 0
                        union select case_key from former_ledger
                        """).query(String.class).list());
        keys.addAll(committed().keySet());
        return List.copyOf(keys);
    }

    /**
     * The places where the chain of commits is broken; each record names what was written with it.
     *
     * @param kept ends of this chain that were kept elsewhere; each must still be in it
     */
    public List<String> checkCommits(List<KeptEnd> kept) {
        return check(commits, "commit", KeptEnd::of, kept);
    }

    /**
     * The places where the access log is broken.
     *
     * @param kept ends of it that were kept elsewhere; each must still be in it
     */
    public List<String> checkAccess(List<KeptEnd> kept) {
        return check(access, "entry of the access log", KeptEnd::ofAccess, kept);
    }

    private static List<String> check(
            CommitChain chain, String what, Function<CommitChain.Commit, KeptEnd> end, List<KeptEnd> kept) {
        List<String> faults = new ArrayList<>();
        List<KeptEnd> missing = new ArrayList<>(kept);
        chain.each(
                record -> missing.removeIf(end.apply(record)::equals),
                broken -> faults.add(
                        what + " " + broken.number() + ": is not what was written, or not behind the one before"));
        missing.forEach(it -> faults.add(what + " " + it.caseSeq() + ": is not the one whose link was kept elsewhere"));
        return faults;
    }

    // Where each case's end was when it was last written to.
    private Map<String, KeptEnd> committed() {
        if (ends.isEmpty()) {
            commits.each(
                    commit -> commit.content()
                            .lines()
                            .map(KeptEnd::ofLine)
                            .filter(Objects::nonNull)
                            .forEach(it -> ends.put(it.caseKey(), it)),
                    broken -> {});
        }
        return ends;
    }

    /**
     * Checks a case.
     *
     * @param kept ends of this case that were kept elsewhere; each must still be in its chain
     */
    public Result check(String caseKey, List<KeptEnd> kept) {
        List<ChainFault> faults = new ArrayList<>();
        List<KeptEnd> missing = new ArrayList<>(kept);
        String link = LedgerRow.NO_LINK;
        long seq = 0;
        for (Linked linked : rows(caseKey)) {
            seq++;
            LedgerRow row = linked.row();
            String expected = row.link(link);
            if (row.caseSeq() != seq) {
                faults.add(new ChainFault(caseKey, seq, "is not there; the next is " + row.caseSeq()));
                seq = row.caseSeq();
            } else if (!expected.equals(linked.link())) {
                faults.add(new ChainFault(caseKey, seq, "is not what was written"));
            }
            check(row, faults);
            KeptEnd here = new KeptEnd(caseKey, seq, linked.link());
            missing.removeIf(here::equals);
            link = linked.link();
        }
        checkEnd(caseKey, seq, link, faults);
        checkCommit(new KeptEnd(caseKey, seq, link), faults);
        missing.forEach(it -> faults.add(
                new ChainFault(caseKey, it.caseSeq(), "is not the event whose end of the case was kept elsewhere")));
        return new Result(new KeptEnd(caseKey, seq, link), faults);
    }

    /**
     * What a check of a case found.
     *
     * @param end the case's end now
     * @param faults every fault; empty when the case is as it was written
     */
    public record Result(KeptEnd end, List<ChainFault> faults) {}

    private record Linked(LedgerRow row, String link) {}

    /** Whether that is the key of a case as it was before its facility was part of it; its rows stand beside the ledger. */
    public static boolean isFormer(String caseKey) {
        return FORMER.matcher(caseKey).matches();
    }

    private static String table(String name, String caseKey) {
        return isFormer(caseKey) ? "former_" + name : name;
    }

    private List<Linked> rows(String caseKey) {
        return jdbc.sql("select case_key, case_seq, event_id, received_at, format, digest, payload, link from "
                        + table("ledger", caseKey) + " where case_key = :caseKey order by case_seq")
                .param("caseKey", caseKey)
                .query((row, n) -> new Linked(
                        new LedgerRow(
                                row.getString(1),
                                row.getLong(2),
                                row.getString(3),
                                row.getString(4),
                                row.getString(5),
                                row.getString(6),
                                row.getString(7)),
                        row.getString(8)))
                .list();
    }

    private void check(LedgerRow row, List<ChainFault> faults) {
        if (Ledger.isOwnFormat(row.format())) {
            if (!Piece.digest(row.payload()).equals(row.digest())) {
                faults.add(new ChainFault(row.caseKey(), row.caseSeq(), "its digest is not that of its text"));
            }
        } else if (original(row.digest())
                .map(Piece::digest)
                .filter(row.digest()::equals)
                .isEmpty()) {
            faults.add(new ChainFault(row.caseKey(), row.caseSeq(), "its original is not what came"));
        }
    }

    private Optional<byte[]> original(String digest) {
        return jdbc.sql("select content from original where digest = :digest")
                .param("digest", digest)
                .query((row, n) -> row.getBytes(1))
                .optional();
    }

    private void checkCommit(KeptEnd now, List<ChainFault> faults) {
        KeptEnd committed = committed().getOrDefault(now.caseKey(), new KeptEnd(now.caseKey(), 0, LedgerRow.NO_LINK));
        if (!committed.equals(now)) {
            faults.add(new ChainFault(
                    now.caseKey(),
                    committed.caseSeq(),
                    "is where the chain of commits says that the case ends, but it ends at " + now.caseSeq()));
        }
    }

    private void checkEnd(String caseKey, long seq, String link, List<ChainFault> faults) {
        KeptEnd end = jdbc.sql(
                        "select case_seq, link from " + table("case_head", caseKey) + " where case_key = :caseKey")
                .param("caseKey", caseKey)
                .query((row, n) -> new KeptEnd(caseKey, row.getLong(1), row.getString(2)))
                .optional()
                .orElse(new KeptEnd(caseKey, 0, LedgerRow.NO_LINK));
        if (!end.equals(new KeptEnd(caseKey, seq, link))) {
            faults.add(new ChainFault(
                    caseKey, end.caseSeq(), "is where the case's end was written, but its rows end at " + seq));
        }
    }
}
