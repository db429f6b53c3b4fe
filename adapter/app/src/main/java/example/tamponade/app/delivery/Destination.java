package example.tamponade.app.delivery;

import example.tamponade.app.intake.CaseKey;
import example.tamponade.core.event.CaseId;
import example.tamponade.fhir.bundle.CaseView;
import io.github.resilience4j.core.IntervalFunction;
import java.net.URI;
import java.time.Duration;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * Where what is on record is delivered to.
 *
 * @param address the base address of a FHIR server's REST interface, for example {@code https://record.example/fhir}, or of a
 *     system that takes HL7 2.5.1 result messages, {@code mllps://monitor.example:2576}, or of a Kafka broker with the topic,
 *     {@code kafka://broker.example:9092/record}
 * @param view how much of a case it gets
 * @param types the types of resources it gets; empty: all
 * @param facilities the facilities whose cases it gets; empty: all
 * @param ids who gives a resource its id there
 * @param motherBy the system of the identifier by which it finds a mother, whom it knows already: she is pointed to by that
 *     identifier and not sent; absent: she is sent
 * @param batch how many resources are sent together at most, beside those that these need
 * @param workers how many cases are sent at the same time
 * @param patience how long an answer is waited for
 * @param pause how long is waited after a failure; each further one doubles it, up to minutes
 * @param restricted whether it gets cases of mothers who refused that their record is shared
 * @param pseudonymised whether it gets cases without what tells whose they are
 * @param unencrypted whether it may be spoken to without TLS over a network
 * @param tls the name of the TLS settings ({@code spring.ssl.bundle}) with the certificates to use; absent: the usual ones
 * @param token how an access token is got, where the destination asks for one
 * @param properties further properties of a topic's producer, as those for an encrypted connection
 */
public record Destination(
        @Nullable URI address,
        @DefaultValue("full") CaseView view,
        @DefaultValue Set<String> types,
        @DefaultValue Set<String> facilities,
        @DefaultValue("ours") ResourceIds ids,
        @Nullable String motherBy,
        @DefaultValue("200") int batch,
        @DefaultValue("2") int workers,
        @DefaultValue("20s") Duration patience,
        @DefaultValue("1s") Duration pause,
        @DefaultValue("false") boolean restricted,
        @DefaultValue("false") boolean pseudonymised,
        @DefaultValue("false") boolean unencrypted,
        @Nullable String tls,
        @DefaultValue TokenSettings token,
        @DefaultValue Map<String, String> properties) {

    /** The endpoint of a subscription. */
    static Destination ofHook(URI endpoint) {
        return new Destination(
                endpoint,
                CaseView.FULL,
                Set.of(),
                Set.of(),
                ResourceIds.OURS,
                null,
                1,
                1,
                Duration.ofSeconds(20),
                Duration.ofSeconds(1),
                false,
                false,
                false,
                null,
                TokenSettings.NONE,
                Map.of());
    }

    private static final Duration SHORTEST = Duration.ofMillis(10);
    private static final Set<String> LOOPBACK = Set.of("localhost", "127.0.0.1", "[::1]");

    /**
     * Checks what was set.
     *
     * @throws IllegalArgumentException naming the setting and the remedy
     */
    void check(String name) {
        String setting = "tamponade.destinations." + name + ".";
        demand(name.matches("[a-z0-9][a-z0-9-]{0,62}"), setting, "use small letters, digits and hyphens in its name");
        demand(address != null && address.getHost() != null, setting + "address", "give its base address, https://…");
        DestinationKind kind = DestinationKind.of(scheme()).orElse(null);
        demand(kind != null, setting + "address", "use https://…, mllps://…:port or kafka://…:port/topic");
        demand(
                kind == DestinationKind.FHIR_SERVER || address().getPort() > 0,
                setting + "address",
                "give the port too, mllps://…:port or kafka://…:port/topic");
        demand(
                kind != DestinationKind.TOPIC || address().getPath().matches("/[A-Za-z0-9._-]+"),
                setting + "address",
                "give the topic too, kafka://…:port/topic");
        demand(
                isEncrypted() || LOOPBACK.contains(address().getHost()) || unencrypted,
                setting + "address",
                "use https, mllps or a topic with security.protocol in its properties, or set unencrypted where"
                        + " something else encrypts the way there");
        demand(
                !token.isAsked() || token.isWhole(),
                setting + "token",
                "give token.client and token.keys with token.address");
        demand(
                !pseudonymised || kind == DestinationKind.FHIR_SERVER,
                setting + "pseudonymised",
                "messages and topics are named by whose they are; use a FHIR server");
        demand(
                kind == DestinationKind.FHIR_SERVER || (ids == ResourceIds.OURS && motherBy == null),
                setting + "ids and mother-by",
                "they are of FHIR servers alone");
        demand(
                motherBy == null || !pseudonymised,
                setting + "mother-by",
                "a destination that gets cases pseudonymised gets nobody's identifiers");
        demand(batch >= 1, setting + "batch", "use 1 or more");
        demand(workers >= 1, setting + "workers", "use 1 or more");
        demand(isSome(patience), setting + "patience", "use more than no time");
        demand(isSome(pause), setting + "pause", "use more than no time");
    }

    private static boolean isSome(Duration time) {
        return time.compareTo(SHORTEST) >= 0;
    }

    private static void demand(boolean holds, String setting, String remedy) {
        if (!holds) {
            throw new IllegalArgumentException(setting + " cannot be used; " + remedy);
        }
    }

    /** The base address. */
    @Override
    public URI address() {
        return Objects.requireNonNull(address);
    }

    /** What there is at its address. */
    DestinationKind kind() {
        return DestinationKind.of(scheme()).orElseThrow();
    }

    private String scheme() {
        return String.valueOf(address().getScheme());
    }

    private boolean isEncrypted() {
        return kind().isEncrypted(scheme())
                || kind() == DestinationKind.TOPIC
                        && properties.getOrDefault("security.protocol", "").endsWith("SSL");
    }

    /** Whether it gets the case or the facility's own resources. */
    boolean takes(String caseKey) {
        CaseId caseId = CaseKey.caseId(caseKey);
        String facility = caseId == null ? CaseKey.facilityId(caseKey) : caseId.facilityId();
        return facilities.isEmpty() || facilities.contains(String.valueOf(facility));
    }

    /** Whether it gets a case as it is, so that what has changed is all that need be looked at. */
    boolean takesAll() {
        return view == CaseView.FULL
                && types.isEmpty()
                && !pseudonymised
                && motherBy == null
                && ids == ResourceIds.OURS;
    }

    /** What it gets, in words that are the same as long as that is. */
    String selection() {
        return view.code() + ", types " + new TreeSet<>(types) + ", facilities " + new TreeSet<>(facilities)
                + (pseudonymised ? ", pseudonymised" : "")
                + (ids == ResourceIds.RECEIVER ? ", receiver's ids" : "")
                + (motherBy == null ? "" : ", mother by " + motherBy);
    }

    /** How many cases are sent at the same time: conditional updates beside each other might create a resource twice. */
    int atOnce() {
        return ids == ResourceIds.RECEIVER ? 1 : workers;
    }

    /** How long a case is held for one request: to connect, to be answered and to keep the answer. */
    Duration lease() {
        return patience.multipliedBy(2).plusSeconds(5);
    }

    /** How long is waited after so many failures in a row, never longer than that, and by chance a little more or less. */
    IntervalFunction pauses(Duration longest) {
        return IntervalFunction.ofExponentialRandomBackoff(pause, 2, 0.5, longest);
    }
}
