package example.tamponade.app.record;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.database.Database;
import java.util.ArrayList;
import java.util.Comparator;
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
    public ResourceRecord(Database database) {
        this.jdbc = database.jdbc();
        this.transactions = database.transactions();
    }

    /**
     * Stores what differs from its latest version as a new version; all of it or nothing.
     *
     * @param caseKey the case or facility that the resources belong to
     * @param resources resources that passed conformance
     * @param seq the case's event up to which it is now on record
     */
    public void store(String caseKey, List<Resource> resources, long seq) {
        transactions.executeWithoutResult(status -> {
            resources.forEach(it -> store(caseKey, it));
            jdbc.sql("""
                            insert into checkpoint (case_key, case_seq) values (:caseKey, :seq)
                            on conflict (case_key) do update set case_seq = excluded.case_seq
                            """).param("caseKey", caseKey).param("seq", seq).update();
        });
    }

    private void store(String caseKey, Resource resource) {
        String type = resource.fhirType();
        String id = resource.getIdPart();
        jdbc.sql("insert into case_resource (case_key, type, id) values (:caseKey, :type, :id) on conflict do nothing")
                .param("caseKey", caseKey)
                .param("type", type)
                .param("id", id)
                .update();
        String content = fhir.newJsonParser().encodeResourceToString(resource);
        Optional<Version> latest = latest(type, id);
        if (latest.filter(it -> it.content().equals(content)).isEmpty()) {
            jdbc.sql(
                            "insert into resource_version (type, id, version, content) values (:type, :id, :version, :content)")
                    .param("type", type)
                    .param("id", id)
                    .param("version", latest.map(Version::version).orElse(0) + 1)
                    .param("content", content)
                    .update();
        }
    }

    /** The latest version of a resource; empty when there is none. */
    public Optional<Resource> current(String type, String id) {
        return latest(type, id).map(it -> parse(it.content(), it.version()));
    }

    /** The latest version of every resource of a case or facility, by type and id. */
    public List<Resource> ofCase(String caseKey) {
        List<Resource> resources = new ArrayList<>(jdbc.sql("""
                        select r.content, r.version from case_resource c
                        join resource_version r on r.type = c.type and r.id = c.id
                        where c.case_key = :caseKey
                          and r.version = (select max(v.version) from resource_version v
                                           where v.type = c.type and v.id = c.id)
                        """)
                .param("caseKey", caseKey)
                .query((row, n) -> parse(row.getString(1), row.getInt(2)))
                .list());
        resources.sort(Comparator.comparing(Resource::fhirType).thenComparing(Resource::getIdPart));
        return resources;
    }

    /** The event of a case up to which everything is on record; 0 when nothing is. */
    public long checkpoint(String caseKey) {
        return jdbc.sql("select case_seq from checkpoint where case_key = :caseKey")
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
