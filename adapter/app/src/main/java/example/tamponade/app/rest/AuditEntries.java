package example.tamponade.app.rest;

import ca.uhn.fhir.rest.api.server.IBundleProvider;
import example.tamponade.app.access.AccessLog;
import java.util.ArrayList;
import java.util.Date;
import java.util.List;
import java.util.UUID;
import org.hl7.fhir.instance.model.api.IBaseResource;
import org.hl7.fhir.instance.model.api.IPrimitiveType;
import org.hl7.fhir.r4.model.InstantType;
import org.jspecify.annotations.Nullable;

/** Entries of the access log up to one moment, the last first, read as they are asked for. */
final class AuditEntries implements IBundleProvider {

    private final AccessLog log;
    private final AccessLog.Span span;
    private final String uuid = UUID.randomUUID().toString();

    AuditEntries(AccessLog log, AccessLog.Span span) {
        this.log = log;
        this.span = span;
    }

    @Override
    public List<IBaseResource> getResources(int from, int to) {
        return new ArrayList<>(log.entries(span, from, to - from).stream()
                .map(AuditEvents::of)
                .map(Content::found)
                .toList());
    }

    @Override
    public Integer size() {
        return Math.toIntExact(log.count(span));
    }

    @Override
    public @Nullable Integer preferredPageSize() {
        return null;
    }

    @Override
    public IPrimitiveType<Date> getPublished() {
        return new InstantType();
    }

    @Override
    public String getUuid() {
        return uuid;
    }
}
