package example.tamponade.fhir.mapping;

import java.util.UUID;

/** What was the fingerprint of an event as it was received? Kept by whoever received it. */
@FunctionalInterface
public interface PayloadDigests {

    /** The SHA-256 of the original payload of that event: 64 hexadecimal digits in lower case. */
    String sha256Of(UUID eventId);
}
