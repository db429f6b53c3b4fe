package example.tamponade.app.rest;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.rest.annotation.History;
import ca.uhn.fhir.rest.annotation.IdParam;
import ca.uhn.fhir.rest.annotation.RawParam;
import ca.uhn.fhir.rest.annotation.Read;
import ca.uhn.fhir.rest.annotation.ResourceParam;
import ca.uhn.fhir.rest.annotation.Search;
import ca.uhn.fhir.rest.annotation.Since;
import ca.uhn.fhir.rest.annotation.Validate;
import ca.uhn.fhir.rest.api.MethodOutcome;
import ca.uhn.fhir.rest.api.server.IBundleProvider;
import ca.uhn.fhir.rest.api.server.RequestDetails;
import ca.uhn.fhir.rest.server.IResourceProvider;
import example.tamponade.app.search.SearchParameters;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.instance.model.api.IBaseResource;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.IdType;
import org.hl7.fhir.r4.model.InstantType;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** The resources of one type, to read and to search. */
public final class TypeProvider implements IResourceProvider {

    private final String type;
    private final ResourceReads reads;

    /** All types that there are. */
    public static List<TypeProvider> all(ResourceReads reads) {
        return SearchParameters.standard().types().stream()
                .map(it -> new TypeProvider(it, reads))
                .toList();
    }

    private TypeProvider(String type, ResourceReads reads) {
        this.type = type;
        this.reads = reads;
    }

    @Override
    public Class<? extends IBaseResource> getResourceType() {
        return FhirContext.forR4Cached().getResourceDefinition(type).getImplementingClass();
    }

    /** The current version, or the one that is named. */
    @Read(version = true)
    public IBaseResource read(@IdParam IdType id) {
        return reads.read(type, id);
    }

    /** The versions of one resource, the last first. */
    @History
    public IBundleProvider history(@IdParam IdType id, @Since @Nullable InstantType since) {
        return reads.history(type, id.getIdPart(), since);
    }

    /** The versions of all resources of the type, the last first. */
    @History
    public IBundleProvider historyOfType(@Since @Nullable InstantType since) {
        return reads.history(type, "", since);
    }

    /** The resources that fulfil a search. */
    @Search(allowUnknownParams = true)
    public Bundle search(@RawParam @Nullable Map<String, List<String>> parameters, RequestDetails request) {
        return reads.search(type, request);
    }

    /** Holds a resource to the profiles that it claims; nothing is kept. */
    @Validate
    public MethodOutcome validate(@ResourceParam IBaseResource resource) {
        MethodOutcome outcome = new MethodOutcome();
        outcome.setOperationOutcome(reads.validate((Resource) resource));
        return outcome;
    }
}
