package example.tamponade.app.delivery;

import example.tamponade.fhir.conformance.ResourceText;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
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
        try {
            byte[] bytes = json.getBytes(StandardCharsets.UTF_8);
            String digest = HexFormat.of()
                    .formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
            return new Sendable(resource, digest);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every JDK has SHA-256", e);
        }
    }
}
