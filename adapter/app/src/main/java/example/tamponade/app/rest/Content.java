package example.tamponade.app.rest;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.model.api.ResourceMetadataKeyEnum;
import ca.uhn.fhir.model.valueset.BundleEntrySearchModeEnum;
import example.tamponade.app.search.FoundVersion;
import org.hl7.fhir.r4.model.IdType;
import org.hl7.fhir.r4.model.InstantType;
import org.hl7.fhir.r4.model.Meta;
import org.hl7.fhir.r4.model.Resource;

/** What is on record as the resource that is answered: with its version, and when it went on record. */
final class Content {

    private Content() {}

    /** The resource, found by a search. */
    static <T extends Resource> T found(T resource) {
        ResourceMetadataKeyEnum.ENTRY_SEARCH_MODE.put(resource, BundleEntrySearchModeEnum.MATCH);
        return resource;
    }

    static Resource resource(FoundVersion version) {
        Resource resource = (Resource) FhirContext.forR4Cached().newJsonParser().parseResource(version.content());
        String number = Integer.toString(version.version());
        resource.setId(new IdType(version.type(), version.id(), number));
        Meta meta = resource.getMeta();
        meta.setVersionId(number);
        if (!version.storedAt().isEmpty()) {
            meta.setLastUpdatedElement(new InstantType(version.storedAt()));
        }
        return resource;
    }
}
