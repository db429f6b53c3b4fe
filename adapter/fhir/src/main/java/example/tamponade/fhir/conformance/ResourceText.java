package example.tamponade.fhir.conformance;

import ca.uhn.fhir.context.FhirContext;
import org.hl7.fhir.r4.model.Resource;

/**
 * One resource as JSON text.
 *
 * @param name {@code type/id}, or the type alone where the resource has no id
 * @param json the text
 */
public record ResourceText(String name, String json) {

    /** The resource as it is written. */
    public static ResourceText of(Resource resource) {
        String name = resource.fhirType() + (resource.hasIdElement() ? "/" + resource.getIdPart() : "");
        return new ResourceText(name, FhirContext.forR4Cached().newJsonParser().encodeResourceToString(resource));
    }

    boolean hasId() {
        return name.indexOf('/') >= 0;
    }
}
