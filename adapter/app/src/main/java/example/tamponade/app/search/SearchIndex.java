package example.tamponade.app.search;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.database.Database;
import example.tamponade.app.intake.FaultLog;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.hl7.fhir.r4.model.Resource;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionOperations;

/** By what each resource on record is found; written with the version that it tells of. */
public final class SearchIndex {

    private static final Logger LOG = LoggerFactory.getLogger(SearchIndex.class);

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

    /** Has these versions of a case found from now on; called in the transaction that puts them on record. */
    public void put(String caseKey, List<IndexedVersion> versions) {
        List<Object[]> current = new ArrayList<>();
        Set<List<Object>> values = new LinkedHashSet<>();
        List<Object[]> times = new ArrayList<>();
        for (IndexedVersion version : versions) {
            IndexRows rows = IndexRows.of(version.resource());
            current.add(row(caseKey, version, rows));
            rows.selective()
                    .forEach(it -> values.add(List.of(version.type(), it.path(), it.value(), it.system(), caseKey)));
            rows.further(version.type())
                    .forEach(it ->
                            times.add(new Object[] {version.type(), version.id(), it.path(), it.low(), it.high()}));
        }
        // What belongs to several cases stays with the first.
        batches.batchUpdate("""
                insert into current_version (type, id, version, stored_at, case_key, low, high, words)
                values (?, ?, ?, ?, ?, ?, ?, ?)
                on conflict (type, id) do update set version = excluded.version, stored_at = excluded.stored_at,
                    low = excluded.low, high = excluded.high, words = excluded.words
                """, current);
        batches.batchUpdate("""
                insert into case_value (type, path, value, system, case_key) values (?, ?, ?, ?, ?)
                on conflict do nothing
                """, values.stream().map(List::toArray).toList());
        batches.batchUpdate(
                "delete from further_time where type = ? and id = ?",
                versions.stream()
                        .filter(it -> SearchParameters.standard().hasFurtherTimes(it.type()))
                        .map(it -> new Object[] {it.type(), it.id()})
                        .toList());
        batches.batchUpdate("insert into further_time (type, id, path, low, high) values (?, ?, ?, ?, ?)", times);
    }

    private static Object[] row(String caseKey, IndexedVersion version, IndexRows rows) {
        IndexRows.Time time = rows.first(version.type()).orElse(null);
        return new Object[] {
            version.type(),
            version.id(),
            version.version(),
            version.storedAt(),
            caseKey,
            time == null ? null : time.low(),
            time == null ? null : time.high(),
            IndexWords.of(rows.values())
        };
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
        List<String> cases = jdbc.sql("select distinct case_key from case_resource order by case_key")
                .query(String.class)
                .list();
        if (!cases.isEmpty()) {
            LOG.info("{} cases and facilities are indexed for this version's searches", cases.size());
        }
        long failed = cases.stream().filter(it -> !isPut(it)).count();
        if (failed > 0) {
            LOG.error("{} of them are not found by searches; the next start tries them again", failed);
            return;
        }
        transactions.executeWithoutResult(status -> {
            jdbc.sql("delete from search_index").update();
            jdbc.sql("insert into search_index (digest) values (:digest)")
                    .param("digest", digest)
                    .update();
        });
    }

    // One that cannot be indexed keeps no other from being found.
    private boolean isPut(String caseKey) {
        try {
            transactions.executeWithoutResult(status -> put(caseKey, ofCase(caseKey)));
            return true;
        } catch (DataAccessException e) {
            throw e;
        } catch (RuntimeException e) {
            FaultLog.error(LOG, "a case cannot be indexed; please report this", e);
            return false;
        }
    }

    private List<IndexedVersion> ofCase(String caseKey) {
        return jdbc.sql("""
                        select r.type, r.id, r.version, r.stored_at, r.content from case_resource n
                        join resource_version r on r.type = n.type and r.id = n.id
                        where n.case_key = :caseKey
                          and r.version = (select max(v.version) from resource_version v
                                           where v.type = r.type and v.id = r.id)
                        order by r.type, r.id
                        """)
                .param("caseKey", caseKey)
                .query((row, n) -> new IndexedVersion(
                        row.getString(1), row.getString(2), row.getInt(3), row.getString(4), (Resource)
                                fhir.newJsonParser().parseResource(row.getString(5))))
                .list();
    }
}
