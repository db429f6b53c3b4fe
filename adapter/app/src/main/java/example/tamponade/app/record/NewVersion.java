package example.tamponade.app.record;

import example.tamponade.fhir.conformance.ResourceText;
import org.hl7.fhir.r4.model.Resource;

/**
 * A version of a resource that is not on record yet.
 *
 * @param resource the resource; nobody changes it any more
 * @param text how it is written
 */
public record NewVersion(Resource resource, ResourceText text) {

    /** A resource and how it is written. */
    public static NewVersion of(Resource resource) {
        return new NewVersion(resource, ResourceText.of(resource));
    }

    /** {@code Type/id}. */
    public String name() {
        return text.name();
    }

    /** The resource as JSON. */
    public String json() {
        return text.json();
    }
}
