package example.tamponade.app.rest;

import ca.uhn.fhir.model.api.ResourceMetadataKeyEnum;
import ca.uhn.fhir.model.valueset.BundleEntryTransactionMethodEnum;
import ca.uhn.fhir.rest.api.server.IBundleProvider;
import example.tamponade.app.access.Binding;
import example.tamponade.app.access.Compartment;
import example.tamponade.app.search.FoundVersion;
import java.util.ArrayList;
import java.util.Date;
import java.util.List;
import java.util.UUID;
import org.hl7.fhir.instance.model.api.IBaseResource;
import org.hl7.fhir.instance.model.api.IPrimitiveType;
import org.hl7.fhir.r4.model.InstantType;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Versions up to a moment, the last first, read as they are asked for. */
final class VersionHistory implements IBundleProvider {

    private static final String VERSIONS = """
            from resource_version
            where type = :type and (:id = '' or id = :id) and stored_at >= :since and stored_at <= :last and
            """;

    private final JdbcClient jdbc;
    private final String type;
    private final String id;
    private final String since;
    private final String last;
    private final Binding binding = new Binding();
    private final String seen;
    private final String uuid = UUID.randomUUID().toString();
    private final InstantType published;

    VersionHistory(JdbcClient jdbc, String type, String id, String since, String last, Compartment compartment) {
        this.seen = compartment.ofResource("resource_version", binding::bind) + " ";
        this.jdbc = jdbc;
        this.type = type;
        this.id = id;
        this.since = since;
        this.last = last;
        this.published = last.isEmpty() ? new InstantType() : new InstantType(last);
    }

    private JdbcClient.StatementSpec statement(String sql) {
        return jdbc.sql(sql)
                .params(binding.values())
                .param("type", type)
                .param("id", id)
                .param("since", since)
                .param("last", last);
    }

    @Override
    public List<IBaseResource> getResources(int from, int to) {
        return new ArrayList<>(statement("select type, id, version, stored_at, content " + VERSIONS + seen
                        + "order by stored_at desc, id, version desc limit :count offset :from")
                .param("count", to - from)
                .param("from", from)
                .query((row, n) -> put(FoundVersion.of(row)))
                .list());
    }

    // A Bundle of versions says of each how it came about (FHIR R4, Bundle, bdl-3): at its own address.
    private static IBaseResource put(FoundVersion version) {
        Resource resource = Content.resource(version);
        ResourceMetadataKeyEnum.ENTRY_TRANSACTION_METHOD.put(resource, BundleEntryTransactionMethodEnum.PUT);
        return resource;
    }

    @Override
    public Integer size() {
        return statement("select count(*) " + VERSIONS + seen)
                .query(Integer.class)
                .single();
    }

    @Override
    public @Nullable Integer preferredPageSize() {
        return null;
    }

    @Override
    public IPrimitiveType<Date> getPublished() {
        return published;
    }

    @Override
    public String getUuid() {
        return uuid;
    }
}
