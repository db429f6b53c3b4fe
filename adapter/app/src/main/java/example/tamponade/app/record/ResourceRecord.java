package example.tamponade.app.record;

import ca.uhn.fhir.context.FhirContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.hl7.fhir.r4.model.Resource;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionOperations;

/** Which resources are there, and which were there before? Every version of every resource, the latest to be served. */
public final class ResourceRecord {

    private final FhirContext fhir = FhirContext.forR4Cached();
    private final JdbcClient jdbc;
    private final TransactionOperations transactions;

    /** Keeps the record in that database. */
    public ResourceRecord(JdbcClient jdbc, TransactionOperations transactions) {
        this.jdbc = jdbc;
        this.transactions = transactions;
    }

    /**
     * Stores what differs from its latest version as a new version; all of it or nothing.
     *
     * @param caseKey the case or facility that the resources belong to
     * @param resources resources that passed conformance
     * @param seq the place in the ledger up to which the case is now on record
     */
    public void store(String caseKey, List<Resource> resources, long seq) {
        transactions.executeWithoutResult(status -> {
            resources.forEach(it -> store(caseKey, it));
            jdbc.sql("""
                            insert into projection (case_key, seq) values (:caseKey, :seq)
                            on conflict (case_key) do update set seq = excluded.seq
                            """).param("caseKey", caseKey).param("seq", seq).update();
        });
    }

    private void store(String caseKey, Resource resource) {
        String content = fhir.newJsonParser().encodeResourceToString(resource);
        Optional<Version> latest = latest(resource.fhirType(), resource.getIdPart());
        if (latest.filter(it -> it.content().equals(content)).isPresent()) {
            return;
        }
        jdbc.sql("""
                        insert into resource_version (type, id, version, case_key, content)
                        values (:type, :id, :version, :caseKey, :content)
                        """)
                .param("type", resource.fhirType())
                .param("id", resource.getIdPart())
                .param("version", latest.map(Version::version).orElse(0) + 1)
                .param("caseKey", caseKey)
                .param("content", content)
                .update();
    }

    /** The latest version of a resource; empty when there is none. */
    public Optional<Resource> current(String type, String id) {
        return latest(type, id).map(it -> parse(it.content(), it.version()));
    }

    /** The latest version of every resource of a case or facility, by type and id. */
    public List<Resource> ofCase(String caseKey) {
        return new ArrayList<>(jdbc.sql("""
                        select content, version from resource_version r
                        where case_key = :caseKey
                          and version = (select max(version) from resource_version v
                                         where v.type = r.type and v.id = r.id)
                        order by type, id
                        """)
                .param("caseKey", caseKey)
                .query((row, n) -> parse(row.getString("content"), row.getInt("version")))
                .list());
    }

    /** Up to which place of the ledger a case is on record; 0 when not at all. */
    public long projectedTo(String caseKey) {
        return jdbc.sql("select seq from projection where case_key = :caseKey")
                .param("caseKey", caseKey)
                .query(Long.class)
                .optional()
                .orElse(0L);
    }

    private Optional<Version> latest(String type, String id) {
        return jdbc.sql("""
                        select content, version from resource_version
                        where type = :type and id = :id order by version desc limit 1
                        """)
                .param("type", type)
                .param("id", id)
                .query((row, n) -> new Version(row.getInt("version"), row.getString("content")))
                .optional();
    }

    private Resource parse(String content, int version) {
        Resource resource = (Resource) fhir.newJsonParser().parseResource(content);
        resource.getMeta().setVersionId(Integer.toString(version));
        return resource;
    }

    private record Version(int version, String content) {}
}
