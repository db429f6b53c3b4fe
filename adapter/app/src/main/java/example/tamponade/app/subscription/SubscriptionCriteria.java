package example.tamponade.app.subscription;

import example.tamponade.app.search.SearchParameters;
import example.tamponade.app.search.SearchRefusedException;
import example.tamponade.app.search.SearchRequest;
import example.tamponade.app.search.SearchRequestReader;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Pattern;
import org.hl7.fhir.r4.model.StringType;
import org.hl7.fhir.r4.model.Subscription;
import org.springframework.web.util.UriComponentsBuilder;
import org.springframework.web.util.UriUtils;

/** Whether a subscription can be kept, and what it asks for. */
public final class SubscriptionCriteria {

    private static final Set<String> LOOPBACK = Set.of("localhost", "127.0.0.1", "[::1]");
    private static final Set<String> PAYLOADS = Set.of("application/fhir+json", "application/json");
    private static final Set<String> OF_THE_CONNECTION =
            Set.of("connection", "content-length", "content-type", "expect", "host", "transfer-encoding", "upgrade");
    private static final Pattern HEADER = Pattern.compile("[A-Za-z0-9-]{1,64}: ?[\\x20-\\x7e]{1,4000}");

    private SubscriptionCriteria() {}

    /**
     * Checks a subscription.
     *
     * @throws SubscriptionRefusedException when it cannot be kept as it is
     */
    public static void demand(Subscription subscription) {
        Subscription.SubscriptionChannelComponent channel = subscription.getChannel();
        if (channel.getType() != Subscription.SubscriptionChannelType.RESTHOOK) {
            throw new SubscriptionRefusedException("channel.type", "rest-hook alone is served; use it");
        }
        demandEndpoint(channel.getEndpoint());
        if (channel.hasPayload() && !PAYLOADS.contains(channel.getPayload())) {
            throw new SubscriptionRefusedException(
                    "channel.payload",
                    "'" + channel.getPayload() + "' is not sent; use application/fhir+json, or leave it out");
        }
        for (StringType header : channel.getHeader()) {
            if (!HEADER.matcher(String.valueOf(header.getValue())).matches()) {
                throw new SubscriptionRefusedException("channel.header", "write each as Name: value, in ASCII");
            }
            String name = header.getValue().split(":", 2)[0].toLowerCase(Locale.ROOT);
            if (OF_THE_CONNECTION.contains(name)) {
                throw new SubscriptionRefusedException(
                        "channel.header", "'" + name + "' is the connection's own; leave it out");
            }
        }
        request(subscription);
    }

    private static void demandEndpoint(String endpoint) {
        try {
            URI address = URI.create(String.valueOf(endpoint));
            boolean isEncrypted = "https".equals(address.getScheme());
            // What is told is put below it.
            boolean isBare = address.getRawQuery() == null && address.getRawFragment() == null;
            boolean isLocal = "http".equals(address.getScheme()) && LOOPBACK.contains(address.getHost());
            if (address.getHost() != null && address.getUserInfo() == null && isBare && (isEncrypted || isLocal)) {
                return;
            }
        } catch (IllegalArgumentException e) {
            // It is no address; said below.
        }
        throw new SubscriptionRefusedException(
                "channel.endpoint",
                "give an address https://… without user, password and query in it; a key goes into channel.header");
    }

    /**
     * The search that its criteria are.
     *
     * @throws SubscriptionRefusedException when they are none
     */
    public static SearchRequest request(Subscription subscription) {
        String criteria = String.valueOf(subscription.getCriteria());
        int mark = criteria.indexOf('?');
        String type = mark < 0 ? criteria : criteria.substring(0, mark);
        if (!SearchParameters.standard().types().contains(type)) {
            throw new SubscriptionRefusedException(
                    "criteria",
                    "'" + criteria + "' does not begin with a type on record; write it as Flag?status=active");
        }
        try {
            Map<String, List<String>> parameters = UriComponentsBuilder.fromUriString(
                            "?" + criteria.substring(mark + 1))
                    .build()
                    .getQueryParams();
            return SearchRequestReader.read(type, mark < 0 ? Map.of() : decoded(parameters), "", false);
        } catch (SearchRefusedException | IllegalArgumentException e) {
            throw new SubscriptionRefusedException("criteria", String.valueOf(e.getMessage()));
        }
    }

    private static Map<String, List<String>> decoded(Map<String, List<String>> parameters) {
        Map<String, List<String>> decoded = new TreeMap<>();
        parameters.forEach((name, values) -> decoded.put(
                name,
                values.stream()
                        .map(it -> UriUtils.decode(String.valueOf(it), StandardCharsets.UTF_8))
                        .toList()));
        return decoded;
    }
}
