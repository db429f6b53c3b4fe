package example.tamponade.app.rest;

import ca.uhn.fhir.rest.annotation.IdParam;
import ca.uhn.fhir.rest.annotation.OptionalParam;
import ca.uhn.fhir.rest.annotation.Read;
import ca.uhn.fhir.rest.annotation.Search;
import ca.uhn.fhir.rest.api.server.IBundleProvider;
import ca.uhn.fhir.rest.param.DateRangeParam;
import ca.uhn.fhir.rest.server.IResourceProvider;
import ca.uhn.fhir.rest.server.exceptions.ResourceNotFoundException;
import example.tamponade.app.access.AccessLog;
import example.tamponade.app.database.Instants;
import java.util.Date;
import org.hl7.fhir.instance.model.api.IBaseResource;
import org.hl7.fhir.r4.model.AuditEvent;
import org.hl7.fhir.r4.model.IdType;
import org.jspecify.annotations.Nullable;

/** The access log, to read: who did what, the last first. */
public final class AuditProvider implements IResourceProvider {

    private final AccessLog log;

    /** Tells of that log. */
    public AuditProvider(AccessLog log) {
        this.log = log;
    }

    @Override
    public Class<? extends IBaseResource> getResourceType() {
        return AuditEvent.class;
    }

    /** One entry, by its number. */
    @Read
    public AuditEvent read(@IdParam IdType id) {
        if (!id.getIdPart().matches("[1-9]\\d{0,17}")) {
            throw nothing(id);
        }
        return log.entry(Long.parseLong(id.getIdPart())).map(AuditEvents::of).orElseThrow(() -> nothing(id));
    }

    private static ResourceNotFoundException nothing(IdType id) {
        return new ResourceNotFoundException("no entry of the access log has the number " + id.getIdPart());
    }

    /** The entries of a time. */
    @Search
    public IBundleProvider search(@OptionalParam(name = AuditEvent.SP_DATE) @Nullable DateRangeParam date) {
        return new AuditEntries(
                log,
                date == null
                        ? log.span("", "")
                        : log.span(text(date.getLowerBoundAsInstant()), text(date.getUpperBoundAsInstant())));
    }

    private static String text(@Nullable Date time) {
        return time == null ? "" : Instants.text(time.toInstant());
    }
}
