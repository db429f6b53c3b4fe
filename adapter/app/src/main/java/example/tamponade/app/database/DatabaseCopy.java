package example.tamponade.app.database;

import java.io.IOException;
import java.sql.ResultSet;
import java.sql.ResultSetMetaData;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.springframework.jdbc.core.JdbcTemplate;

/** Copies everything of a database, as it is at one moment, into one that is empty, of the same kind or another. */
public final class DatabaseCopy {

    // These first: others point to them.
    private static final List<String> POINTED_TO = List.of("refused_original", "quarantine", "destination");

    private static final int ROWS_TOGETHER = 500;

    private final Database from;
    private final Database to;

    private DatabaseCopy(Database from, Database to) {
        this.from = from;
        this.to = to;
    }

    /**
     * Copies.
     *
     * @param from opened to read, so that it is seen as it is at one moment
     * @param to a database that was just made
     * @throws IOException when there is something in it already
     */
    public static void copy(Database from, Database to) throws IOException {
        DatabaseCopy copy = new DatabaseCopy(from, to);
        List<String> tables = copy.tables();
        for (String table : tables) {
            if (to.jdbc().sql("select count(*) from " + table).query(Long.class).single() > 0) {
                throw new IOException("there is something in the database to copy to already; name one that is empty");
            }
        }
        to.transactions().executeWithoutResult(written -> {
            // On SQLite a transaction must begin with a statement that writes.
            to.jdbc().sql("delete from checkpoint where 1 = 0").update();
            copy.withoutTriggers(
                    tables, () -> from.transactions().executeWithoutResult(read -> tables.forEach(copy::copyTable)));
        });
    }

    private List<String> tables() {
        String all = to.dialect() == Dialect.SQLITE
                ? "select name from sqlite_master where type = 'table' and name not like 'sqlite_%'"
                : "select table_name from information_schema.tables where table_schema = current_schema()"
                        + " and table_type = 'BASE TABLE'";
        return to.jdbc().sql(all).query(String.class).list().stream()
                .filter(it -> !it.startsWith("flyway_"))
                .sorted(Comparator.comparingInt(DatabaseCopy::place).thenComparing(it -> it))
                .toList();
    }

    private static int place(String table) {
        int place = POINTED_TO.indexOf(table);
        return place < 0 ? POINTED_TO.size() : place;
    }

    // They keep hands from what was written; what is copied was written.
    private void withoutTriggers(List<String> tables, Runnable work) {
        if (to.dialect() == Dialect.POSTGRESQL) {
            tables.forEach(it -> alter("alter table " + it + " disable trigger user"));
            work.run();
            tables.forEach(it -> alter("alter table " + it + " enable trigger user"));
            return;
        }
        List<String> names = new ArrayList<>();
        List<String> made = to.jdbc()
                .sql("select name, sql from sqlite_master where type = 'trigger' order by name")
                .query((row, n) -> {
                    names.add(row.getString(1));
                    return row.getString(2);
                })
                .list();
        names.forEach(it -> alter("drop trigger " + it));
        work.run();
        made.forEach(this::alter);
    }

    private void alter(String statement) {
        to.batches().execute(statement);
    }

    private void copyTable(String table) {
        // Rows come a few at a time, however many there are.
        JdbcTemplate rows =
                new JdbcTemplate(Objects.requireNonNull(from.batches().getDataSource()));
        rows.setFetchSize(ROWS_TOGETHER);
        List<Object[]> waiting = new ArrayList<>();
        String[] insert = new String[1];
        rows.query("select * from " + table, row -> {
            if (insert[0] == null) {
                insert[0] = insert(table, row.getMetaData());
            }
            waiting.add(values(row));
            if (waiting.size() == ROWS_TOGETHER) {
                to.batches().batchUpdate(insert[0], waiting);
                waiting.clear();
            }
        });
        if (!waiting.isEmpty()) {
            to.batches().batchUpdate(insert[0], waiting);
        }
    }

    private static String insert(String table, ResultSetMetaData columns) throws SQLException {
        List<String> names = new ArrayList<>();
        for (int i = 1; i <= columns.getColumnCount(); i++) {
            names.add(columns.getColumnName(i).toLowerCase(Locale.ROOT));
        }
        return "insert into " + table + " (" + String.join(", ", names) + ") values ("
                + String.join(", ", Collections.nCopies(names.size(), "?")) + ")";
    }

    private static Object[] values(ResultSet row) throws SQLException {
        Object[] values = new Object[row.getMetaData().getColumnCount()];
        for (int i = 0; i < values.length; i++) {
            values[i] = row.getObject(i + 1);
        }
        return values;
    }
}
