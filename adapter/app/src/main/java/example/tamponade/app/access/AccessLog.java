package example.tamponade.app.access;

import example.tamponade.app.chain.CommitChain;
import example.tamponade.app.database.Database;
import java.util.List;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Who did what: entries that are added, never changed, and chained by digests. */
public final class AccessLog {

    private final Database database;
    private final JdbcClient reader;
    private final CommitChain chain;

    /** Keeps the log in that database. */
    public AccessLog(Database database) {
        this.database = database;
        this.reader = database.reader();
        this.chain = CommitChain.ofAccess(database);
    }

    /** Adds entries in a transaction of their own. */
    void addAlone(List<AccessEntry> entries) {
        database.transactions().executeWithoutResult(status -> {
            // On SQLite a transaction must begin with a statement that writes, to wait for its turn beside another
            // process.
            database.jdbc()
                    .sql("insert into access_log (number, content, link) select 0, '', '' where 1 = 0")
                    .update();
            add(entries);
        });
    }

    /** Adds entries in the transaction under way; others wait with theirs until its end, so this comes last. */
    public void add(List<AccessEntry> entries) {
        chain.addEach(entries.stream().map(AccessEntry::text).toList());
    }

    /**
     * Entries of a time, up to the last one that there is now: what is added later is not among them.
     *
     * @param from the first time, as the database writes it; empty: any
     * @param to the last time; empty: any
     * @param last the last entry's number
     */
    public record Span(String from, String to, long last) {}

    /** The entries of that time that there are now. */
    public Span span(String from, String to) {
        return new Span(
                from,
                to,
                reader.sql("select coalesce(max(number), 0) from access_log")
                        .query(Long.class)
                        .single());
    }

    /** How many entries it has. */
    public long count(Span span) {
        return statement("select count(*) ", span, "").query(Long.class).single();
    }

    /**
     * Entries with their numbers, the last first.
     *
     * @param offset how many are left out
     * @param most how many there are at most
     */
    public List<Numbered> entries(Span span, int offset, int most) {
        return statement("select number, content ", span, " order by number desc limit :most offset :offset")
                .param("most", most)
                .param("offset", offset)
                .query((row, n) -> new Numbered(row.getLong(1), AccessEntry.of(row.getString(2))))
                .list();
    }

    private JdbcClient.StatementSpec statement(String select, Span span, String order) {
        return reader.sql(select + """
                        from access_log where substr(content, 1, 24) >= :from
                        and (:to = '' or substr(content, 1, 24) <= :to) and number <= :last
                        """ + order)
                .param("from", span.from())
                .param("to", span.to())
                .param("last", span.last());
    }

    /** The entry of that number. */
    public Optional<Numbered> entry(long number) {
        return reader.sql("select number, content from access_log where number = :number")
                .param("number", number)
                .query((row, n) -> new Numbered(row.getLong(1), AccessEntry.of(row.getString(2))))
                .optional();
    }

    /**
     * An entry with its place.
     *
     * @param number its place in the log, from 1 without gaps
     */
    public record Numbered(long number, AccessEntry entry) {}
}
