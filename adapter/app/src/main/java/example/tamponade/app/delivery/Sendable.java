package example.tamponade.app.delivery;

import example.tamponade.app.intake.Piece;
import example.tamponade.fhir.conformance.ResourceText;
import org.hl7.fhir.r4.model.Resource;

/**
 * A resource as it is sent.
 *
 * @param resource the resource
 * @param digest SHA-256 of its JSON, lower-case hex
 */
record Sendable(Resource resource, String digest) {

    static Sendable of(Resource resource) {
        return of(resource, ResourceText.of(resource).json());
    }

    /** A resource and how it is written. */
    static Sendable of(Resource resource, String json) {
        return new Sendable(resource, Piece.digest(json));
    }
}
