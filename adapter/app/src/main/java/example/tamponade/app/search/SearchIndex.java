package example.tamponade.app.search;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.database.Database;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Resource;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionOperations;

/** By what each resource on record is found; written with the version that it tells of. */
public final class SearchIndex {

    private static final Logger LOG = LoggerFactory.getLogger(SearchIndex.class);

    private static final int TOGETHER = 500;

    private final FhirContext fhir = FhirContext.forR4Cached();
    private final JdbcClient jdbc;
    private final JdbcTemplate batches;
    private final TransactionOperations transactions;

    /** The index in that database. */
    public SearchIndex(Database database) {
        this.jdbc = database.jdbc();
        this.batches = database.batches();
        this.transactions = database.transactions();
    }

    /** Has these versions found from now on; called in the transaction that puts them on record. */
    public void put(List<IndexedVersion> versions) {
        batches.batchUpdate(
                """
                insert into current_version (type, id, version, stored_at) values (?, ?, ?, ?)
                on conflict (type, id) do update set version = excluded.version, stored_at = excluded.stored_at
                """,
                versions.stream()
                        .map(it -> new Object[] {it.type(), it.id(), it.version(), it.storedAt()})
                        .toList());
        List<Object[]> former = versions.stream()
                .filter(it -> !it.isFirst())
                .map(it -> new Object[] {it.type(), it.id()})
                .toList();
        batches.batchUpdate("delete from search_value where type = ? and id = ?", former);
        batches.batchUpdate("delete from search_time where type = ? and id = ?", former);
        addRows(versions);
    }

    private void addRows(List<IndexedVersion> versions) {
        List<Object[]> values = new ArrayList<>();
        List<Object[]> times = new ArrayList<>();
        for (IndexedVersion version : versions) {
            IndexRows rows = IndexRows.of(version.resource());
            rows.values()
                    .forEach(it -> values.add(
                            new Object[] {version.type(), it.path(), it.value(), version.id(), it.system()}));
            rows.times()
                    .forEach(it ->
                            times.add(new Object[] {version.type(), it.path(), it.low(), it.high(), version.id()}));
        }
        batches.batchUpdate("insert into search_value (type, path, value, id, system) values (?, ?, ?, ?, ?)", values);
        batches.batchUpdate("insert into search_time (type, path, low, high, id) values (?, ?, ?, ?, ?)", times);
    }

    /** Builds the index anew where it is that of other searches than this version knows, as after an update. */
    public void refresh() {
        String digest = SearchParameters.standard().digest();
        boolean isFresh = jdbc.sql("select digest from search_index")
                .query(String.class)
                .list()
                .equals(List.of(digest));
        if (isFresh) {
            return;
        }
        String last = " ";
        long count = 0;
        List<IndexedVersion> part;
        do {
            String from = last;
            part = transactions.execute(status -> putAfter(from));
            last = part.isEmpty() ? last : name(part.get(part.size() - 1));
            count += part.size();
        } while (!part.isEmpty());
        transactions.executeWithoutResult(status -> {
            jdbc.sql("delete from search_index").update();
            jdbc.sql("insert into search_index (digest) values (:digest)")
                    .param("digest", digest)
                    .update();
        });
        if (count > 0) {
            LOG.info("{} resources are indexed for this version's searches", count);
        }
    }

    private List<IndexedVersion> putAfter(String name) {
        List<IndexedVersion> part = after(name);
        put(part);
        return part;
    }

    private static String name(IndexedVersion version) {
        return version.type() + " " + version.id();
    }

    private List<IndexedVersion> after(String name) {
        int space = name.indexOf(' ');
        return jdbc.sql("""
                        select r.type, r.id, r.version, r.stored_at, r.content from resource_version r
                        where (r.type > :type or r.type = :type and r.id > :id)
                          and r.version = (select max(v.version) from resource_version v
                                           where v.type = r.type and v.id = r.id)
                        order by r.type, r.id limit :together
                        """)
                .param("type", name.substring(0, space))
                .param("id", name.substring(space + 1))
                .param("together", TOGETHER)
                .query((row, n) -> new IndexedVersion(
                        row.getString(1), row.getString(2), row.getInt(3), row.getString(4), false, (Resource)
                                fhir.newJsonParser().parseResource(row.getString(5))))
                .list();
    }
}
