package example.tamponade.app.delivery;

import java.util.Arrays;
import java.util.Optional;

/** What there is at a destination's address. */
enum DestinationKind {
    /** A FHIR server that takes transactions. */
    FHIR_SERVER("https", "http"),
    /** A system that takes HL7 version 2 messages over MLLP. */
    MESSAGES("mllps", "mllp"),
    /** A Kafka topic; whether it is encrypted is a property of the producer. */
    TOPIC("", "kafka");

    private final String encrypted;
    private final String clear;

    DestinationKind(String encrypted, String clear) {
        this.encrypted = encrypted;
        this.clear = clear;
    }

    /** The kind of an address with that scheme. */
    static Optional<DestinationKind> of(String scheme) {
        return Arrays.stream(values())
                .filter(it -> it.encrypted.equals(scheme) || it.clear.equals(scheme))
                .findFirst();
    }

    boolean isEncrypted(String scheme) {
        return encrypted.equals(scheme);
    }
}
