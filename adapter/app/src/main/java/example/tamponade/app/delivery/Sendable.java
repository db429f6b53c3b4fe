package example.tamponade.app.delivery;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.intake.Piece;
import example.tamponade.fhir.conformance.ResourceText;
import java.util.List;
import org.hl7.fhir.r4.model.Resource;

/**
 * A resource as it is sent.
 *
 * @param resource the resource
 * @param digest SHA-256 of its JSON, lower-case hex
 */
record Sendable(Resource resource, String digest) {

    /**
     * A resource that is sent again when it changes, or what it is sent with.
     *
     * @param beside what else it is sent with, in words that are the same as long as that is
     */
    static Sendable with(String beside, Resource resource) {
        return of(resource, ResourceText.of(resource).json() + beside);
    }

    /** A resource and how it is written. */
    static Sendable of(Resource resource, String json) {
        return new Sendable(resource, Piece.digest(json));
    }

    /** What it points to, {@code Type/id}. */
    List<String> references() {
        return FhirContext.forR4Cached().newTerser().getAllResourceReferences(resource).stream()
                .map(it -> it.getResourceReference().getReferenceElement().getValue())
                .filter(it -> it != null && it.matches("[A-Za-z]+/[A-Za-z0-9.-]+"))
                .toList();
    }
}
