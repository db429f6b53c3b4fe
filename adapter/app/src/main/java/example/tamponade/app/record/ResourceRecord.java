package example.tamponade.app.record;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.Instants;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.outbox.Outbox;
import example.tamponade.app.outbox.ResourceNames;
import example.tamponade.app.quarantine.Quarantine;
import example.tamponade.app.quarantine.Refusal;
import example.tamponade.app.search.SearchIndex;
import java.nio.charset.StandardCharsets;
import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionOperations;

/** Which resources are there, and which were there before? Every version of every resource, the latest to be served. */
public final class ResourceRecord implements VersionStore {

    private final FhirContext fhir = FhirContext.forR4Cached();
    private final JdbcClient jdbc;
    private final RecordWriter writer;
    private final TransactionOperations transactions;
    private final Quarantine quarantine;
    private final Outbox outbox;
    private final SearchIndex index;
    private final Clock clock;

    /**
     * Keeps the record in that database, and has what goes on record found by its index and delivered by that outbox.
     *
     * @param clock tells when a version goes on record
     */
    public ResourceRecord(Database database, Outbox outbox, Clock clock) {
        this.outbox = outbox;
        this.index = new SearchIndex(database);
        this.clock = clock;
        this.jdbc = database.jdbc();
        this.writer = new RecordWriter(database);
        this.transactions = database.transactions();
        this.quarantine = new Quarantine(database);
    }

    @Override
    public void store(String caseKey, Collection<String> names, List<NewVersion> changed, Checkpoint upTo) {
        transactions.executeWithoutResult(status -> {
            writer.addNames(caseKey, names);
            Map<String, StoredVersion> latest =
                    versions(changed.stream().map(NewVersion::name).toList());
            // Another case may have put the same on record meanwhile, as of their facility.
            String now = Instants.text(clock.instant());
            List<NewVersion> really = changed.stream()
                    .filter(it -> !latest.containsKey(it.name())
                            || !latest.get(it.name()).content().equals(it.json()))
                    .toList();
            List<StoredVersion> added = really.stream()
                    .map(it -> StoredVersion.after(latest.get(it.name()), it))
                    .toList();
            writer.addVersions(added, now);
            index.put(
                    caseKey,
                    IntStream.range(0, added.size())
                            .mapToObj(
                                    i -> added.get(i).indexed(now, really.get(i).resource()))
                            .toList());
            outbox.add(caseKey, added.stream().map(StoredVersion::due).toList());
            OffsetDateTime asOf = upTo.asOf();
            jdbc.sql("""
                            insert into checkpoint (case_key, case_seq, as_of) values (:caseKey, :seq, :asOf)
                            on conflict (case_key)
                            do update set case_seq = excluded.case_seq, as_of = excluded.as_of
                            """)
                    .param("caseKey", caseKey)
                    .param("seq", upTo.seq())
                    .param("asOf", asOf == null ? null : asOf.toString(), Types.VARCHAR)
                    .update();
        });
    }

    @Override
    public Map<String, String> latest(Collection<String> names) {
        Map<String, String> latest = new HashMap<>();
        versions(names).forEach((name, version) -> latest.put(name, version.content()));
        return latest;
    }

    @Override
    public List<Resource> ofCase(String caseKey) {
        return ofCase(caseKey, "");
    }

    /** The latest version of every resource of a type of a case or facility, by id. */
    public List<Resource> ofCase(String caseKey, String type) {
        List<Resource> resources = new ArrayList<>(jdbc.sql("""
                        select r.content, r.version from case_resource c
                        join resource_version r on r.type = c.type and r.id = c.id
                        where c.case_key = :caseKey and (:type = '' or c.type = :type)
                          and r.version = (select max(v.version) from resource_version v
                                           where v.type = c.type and v.id = c.id)
                        """)
                .param("caseKey", caseKey)
                .param("type", type)
                .query((row, n) -> parse(row.getString(1), row.getInt(2)))
                .list());
        resources.sort(Comparator.comparing(Resource::fhirType).thenComparing(Resource::getIdPart));
        return resources;
    }

    @Override
    public Checkpoint checkpoint(String caseKey) {
        return jdbc.sql("select case_seq, as_of from checkpoint where case_key = :caseKey")
                .param("caseKey", caseKey)
                .query((row, n) -> checkpoint(row.getLong(1), row.getString(2)))
                .optional()
                .orElse(Checkpoint.NOTHING);
    }

    private static Checkpoint checkpoint(long seq, @Nullable String asOf) {
        boolean known = asOf == null || !asOf.isEmpty();
        return new Checkpoint(seq, asOf == null || asOf.isEmpty() ? null : OffsetDateTime.parse(asOf), known);
    }

    @Override
    public List<SetAside> setAside(String caseKey) {
        return jdbc.sql("""
                        select s.case_seq, l.payload, s.software from set_aside s
                        join ledger l on l.case_key = s.case_key and l.case_seq = s.case_seq
                        where s.case_key = :caseKey order by s.case_seq
                        """)
                .param("caseKey", caseKey)
                .query((row, n) -> new SetAside(row.getLong(1), EventReader.stored(row.getString(2)), row.getString(3)))
                .list();
    }

    @Override
    public void setAside(String caseKey, SetAside event, String reason) {
        transactions.executeWithoutResult(status -> {
            jdbc.sql("""
                            insert into set_aside (case_key, case_seq, event_id, software, reason)
                            values (:caseKey, :seq, :eventId, :software, :reason)
                            on conflict (case_key, case_seq)
                            do update set software = excluded.software, reason = excluded.reason
                            """)
                    .param("caseKey", caseKey)
                    .param("seq", event.seq())
                    .param("eventId", event.event().eventId().toString())
                    .param("software", event.software())
                    .param("reason", reason)
                    .update();
            quarantine.keep(List.of(refusal(caseKey, event, reason)));
        });
    }

    /** Says that an event that was set aside is on record now. */
    public void noLongerSetAside(String caseKey, SetAside event, Instant at) {
        transactions.executeWithoutResult(status -> {
            jdbc.sql("delete from set_aside where case_key = :caseKey and case_seq = :seq")
                    .param("caseKey", caseKey)
                    .param("seq", event.seq())
                    .update();
            quarantine.putOnRecord(refusal(caseKey, event, "").piece(), at);
        });
    }

    /** The keys of the cases with an event that other software than this version set aside. */
    public List<String> setAsideByOthersThan(String software) {
        return jdbc.sql("select distinct case_key from set_aside where software <> :software")
                .param("software", software)
                .query(String.class)
                .list();
    }

    /** How many events are set aside. */
    public long countSetAside() {
        return jdbc.sql("select count(*) from set_aside").query(Long.class).single();
    }

    private Refusal refusal(String caseKey, SetAside event, String reason) {
        return jdbc.sql("select payload, received_at from ledger where case_key = :caseKey and case_seq = :seq")
                .param("caseKey", caseKey)
                .param("seq", event.seq())
                .query((row, n) -> new Refusal(
                        new Piece(
                                InputFormat.EVENT,
                                "event " + event.seq() + " of " + caseKey + " in the ledger",
                                Original.of(row.getString(1).getBytes(StandardCharsets.UTF_8)),
                                Intake.Refused.notOnRecord(reason)),
                        Intake.Refused.notOnRecord(reason).reasons(),
                        Instant.parse(row.getString(2))))
                .single();
    }

    /** The latest versions, with their numbers, of those of these resources ({@code Type/id}) that have one. */
    public Map<String, StoredVersion> versions(Collection<String> names) {
        Map<String, StoredVersion> found = new HashMap<>();
        ResourceNames.byType(names, (type, ids) -> add(type, ids, found));
        return found;
    }

    private void add(String type, List<String> ids, Map<String, StoredVersion> found) {
        jdbc.sql("""
                        select r.id, r.version, r.content from resource_version r
                        where r.type = :type and r.id in (:ids)
                          and r.version = (select max(v.version) from resource_version v
                                           where v.type = r.type and v.id = r.id)
                        """).param("type", type).param("ids", ids).query(row -> {
            found.put(
                    type + "/" + row.getString(1),
                    new StoredVersion(type, row.getString(1), row.getInt(2), row.getString(3)));
        });
    }

    private Resource parse(String content, int version) {
        Resource resource = (Resource) fhir.newJsonParser().parseResource(content);
        resource.getMeta().setVersionId(Integer.toString(version));
        return resource;
    }
}
